using Homestretch.Core.Learning;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Planning.Sensitivity;

/// <summary>The figures that the model takes for granted about one person.</summary>
/// <param name="Standing">On ability and tests.</param>
/// <param name="Learning">On learning and forgetting.</param>
/// <param name="Slower">How much slower than on the tests the person works on exam day, as a logarithm.</param>
internal sealed record ModelFigures(StandingAssumptions Standing, LearningAssumptions Learning, double Slower);
