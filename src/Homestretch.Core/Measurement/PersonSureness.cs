namespace Homestretch.Core.Measurement;

/// <summary>What one person's 'how sure' marks say.</summary>
/// <param name="Person">The person.</param>
/// <param name="Marked">Answers with a mark.</param>
/// <param name="Right">Correct ones.</param>
/// <param name="Guessed">Answers marked as no surer than guessing.</param>
/// <param name="GuessedRight">Correct ones among them.</param>
/// <param name="Lucky">How many of those were luck, as the wrong guesses let expect.</param>
/// <param name="SureWrong">Wrong answers the person was sure of: what must be unlearnt.</param>
/// <param name="OverConfidence">Mean sureness less share correct: above zero is too sure.</param>
/// <param name="Remark">The finding as a sentence.</param>
public sealed record PersonSureness(
    string Person,
    int Marked,
    int Right,
    int Guessed,
    int GuessedRight,
    double Lucky,
    int SureWrong,
    Statistic OverConfidence,
    string Remark);
