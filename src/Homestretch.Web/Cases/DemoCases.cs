using System.Collections.Immutable;

using Homestretch.Store;

using NodaTime.Text;

using YamlDotNet.Serialization;
using YamlDotNet.Serialization.NamingConventions;

namespace Homestretch.Web.Cases;

/// <summary>The demo: invented people preparing for an invented exam, shipped with the program.</summary>
public sealed class DemoCases
{
    private DemoCases(ImmutableArray<CaseFiles> cases) => All = cases;

    /// <summary>In the order of demo.yaml.</summary>
    public ImmutableArray<CaseFiles> All { get; }

    /// <summary>The demo case of a key, or null.</summary>
    public CaseFiles? Find(string key) => All.FirstOrDefault(c => c.Key == key);

    /// <summary>Reads demo.yaml and the files it names.</summary>
    /// <param name="folder">The folder that holds demo.yaml.</param>
    /// <exception cref="IOException">A file is missing: the program was not built or copied whole.</exception>
    public static DemoCases Load(string folder)
    {
        IDeserializer yaml = new DeserializerBuilder().WithNamingConvention(HyphenatedNamingConvention.Instance).Build();
        DemoFile demo = yaml.Deserialize<DemoFile>(File.ReadAllText(Path.Combine(folder, "demo.yaml")));
        NamedFile exam = Read(folder, FileRole.Exam, demo.Exam);
        return new([.. demo.Cases.Select(entry => new CaseFiles(
            entry.Key,
            entry.Candidate,
            LocalDatePattern.Iso.Parse(entry.ExamDay).Value,
            entry.Story,
            LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm").Parse(entry.From).Value,
            [
                exam,
                .. entry.Evidence.Select(name => Read(folder, FileRole.Evidence, name)),
                Read(folder, FileRole.FreeTime, entry.Free),
                .. entry.Cohort.Select(name => Read(folder, FileRole.Cohort, name)),
                .. entry.Busy is { } busy ? [Read(folder, FileRole.Busy, busy)] : Array.Empty<NamedFile>(),
            ])
        {
            Resources = demo.Resources is { } resources ? (resources, File.ReadAllBytes(Path.Combine(folder, resources))) : null,
        })]);
    }

    private static NamedFile Read(string folder, FileRole role, string name) => new(role, name, File.ReadAllBytes(Path.Combine(folder, name)));

    // Shapes of demo.yaml; YamlDotNet fills them in.
#pragma warning disable CA1812, S3459
    private sealed class DemoFile
    {
        public string Exam { get; set; } = "";

        public string? Resources { get; set; }

        public List<DemoEntry> Cases { get; set; } = [];
    }

    private sealed class DemoEntry
    {
        public string Key { get; set; } = "";

        public string Candidate { get; set; } = "";

        public List<string> Evidence { get; set; } = [];

        public List<string> Cohort { get; set; } = [];

        public string Free { get; set; } = "";

        public string? Busy { get; set; }

        public string ExamDay { get; set; } = "";

        public string From { get; set; } = "";

        public string Story { get; set; } = "";
    }
#pragma warning restore CA1812, S3459
}
