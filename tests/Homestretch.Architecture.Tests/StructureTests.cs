using ArchUnitNET.Domain;
using ArchUnitNET.Loader;

using Homestretch.Architecture.Tests.Wrong;
using Homestretch.Core.Blueprints;

using Assembly = System.Reflection.Assembly;

namespace Homestretch.Architecture.Tests;

/// <summary>The structure holds; and for every rule there is a wrong example that it catches.</summary>
public sealed class StructureTests
{
    private const string WrongRoot = "Homestretch.Architecture.Tests.Wrong";

    private static readonly Assembly _core = typeof(Exam).Assembly;
    private static readonly ArchUnitNET.Domain.Architecture _architecture = new ArchLoader().LoadAssemblies(_core, typeof(StructureTests).Assembly).Build();

    private static IType[] CoreTypes => [.. _architecture.Types.Where(t => t.Assembly.Name == _core.GetName().Name || t.Assembly.Name == _core.FullName)];

    private static IType[] WrongTypes => [.. _architecture.Types.Where(t => t.FullName.StartsWith(WrongRoot + ".", StringComparison.Ordinal))];

    [Fact]
    public void TheModelIsLoaded()
    {
        Assert.Contains(CoreTypes, t => t.FullName == typeof(Exam).FullName);
        Assert.True(CoreTypes.Length > 50);
    }

    [Fact]
    public void RoomsDependOnlyLeftwards() => AssertNone(Rooms.Violations(CoreTypes, "Homestretch.Core"));

    [Fact]
    public void ADependencyToTheRightIsCaught()
    {
        string[] caught = [.. Rooms.Violations(WrongTypes, WrongRoot)];

        Assert.Contains(caught, v => v.Contains("Blueprints.LooksRight uses", StringComparison.Ordinal) && v.Contains("Planning.RightmostType", StringComparison.Ordinal));
        Assert.Contains(caught, v => v.Contains("Standing.LooksAside uses", StringComparison.Ordinal) && v.Contains("Measurement.BesideType", StringComparison.Ordinal));
        Assert.Contains(caught, v => v.Contains("Cellar.NoRoom lies in no known room", StringComparison.Ordinal));
        Assert.DoesNotContain(caught, v => v.StartsWith($"{WrongRoot}.Planning.", StringComparison.Ordinal));
    }

    [Fact]
    public void TheModelTouchesNothingOutside() => AssertNone(Purity.Violations(CoreTypes));

    [Theory]
    [InlineData("System.IO.File")]
    [InlineData("System.Console")]
    [InlineData("System.Environment")]
    [InlineData("NodaTime.SystemClock")]
    [InlineData("System.DateTime.get_Now")]
    [InlineData("System.DateTime.get_UtcNow")]
    [InlineData("System.Random")]
    public void TouchingTheOutsideIsCaught(string what)
        => Assert.Contains(Purity.Violations(WrongTypes), v => v.Contains(nameof(Worldly), StringComparison.Ordinal) && v.Contains(what, StringComparison.Ordinal));

    [Fact]
    public void TheModelHasNoGlobals() => AssertNone(Purity.Globals(_core.GetTypes()));

    [Fact]
    public void AGlobalIsCaught() => Assert.Equal([$"{WrongRoot}.Worldly.Counter"], Purity.Globals([typeof(Worldly)]));

    [Fact]
    public void TheModelRefersToNumbersAndTimesOnly() => AssertNone(References.BeyondTheModels(_core));

    [Fact]
    public void AnotherReferenceIsCaught() => Assert.Contains("Homestretch.Core", References.BeyondTheModels(typeof(StructureTests).Assembly));

    [Fact]
    public void ProjectsReferOnlyAsTheTableSays()
    {
        string[] projects = Directory.GetFiles(Path.Combine(Checkout.Root, "src"), "*.csproj", SearchOption.AllDirectories);

        Assert.All(projects, p => Assert.True(References.Knows(Path.GetFileNameWithoutExtension(p)), p));
        AssertNone(projects.SelectMany(p => References.BeyondTheTable(Path.GetFileNameWithoutExtension(p), File.ReadAllText(p))));
    }

    [Theory]
    [InlineData("Homestretch.Files", "../Homestretch.Store/Homestretch.Store.csproj")]
    [InlineData("Homestretch.Core", @"..\Homestretch.Files\Homestretch.Files.csproj")]
    [InlineData("Homestretch.Store", "../Homestretch.Web/Homestretch.Web.csproj")]
    public void AReferenceBeyondTheTableIsCaught(string project, string reference)
        => Assert.Single(References.BeyondTheTable(project, $"<Project><ItemGroup><ProjectReference Include=\"{reference}\" /></ItemGroup></Project>"));

    [Fact]
    public void OnePublicTypePerFileNamedAfterIt()
    {
        string[] sources = [.. Checkout.Sources];

        Assert.True(sources.Length > 100);
        AssertNone(sources.SelectMany(f => FileNames.Violations(Path.GetRelativePath(Checkout.Root, f), File.ReadAllText(f))));
    }

    [Theory]
    [InlineData("One.cs", "public sealed class One;\n\npublic enum Two { A }\n")]
    [InlineData("One.cs", "public readonly record struct Two(int A);\n")]
    [InlineData("One.cs", "namespace A\n{\n    public class One;\n}\n")]
    public void AFileThatHoldsSomethingElseIsCaught(string file, string text) => Assert.NotEmpty(FileNames.Violations(file, text));

    [Theory]
    [InlineData("One.cs", "namespace A;\n\npublic sealed record One(int A)\n{\n    public enum Inner { B }\n}\n\ninternal sealed class Helps;\n")]
    [InlineData("One.Parts.cs", "public static partial class One;\n")]
    public void AFileInOrderIsNotCaught(string file, string text) => Assert.Empty(FileNames.Violations(file, text));

    private static void AssertNone(IEnumerable<string> violations)
    {
        string[] all = [.. violations];
        Assert.True(all.Length == 0, string.Join('\n', all));
    }
}
