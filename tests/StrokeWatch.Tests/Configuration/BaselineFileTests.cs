using StrokeWatch.Assessment.Baselines;
using StrokeWatch.Configuration;
using StrokeWatch.Configuration.Toml;
using Xunit;

namespace StrokeWatch.Tests.Configuration;

public sealed class BaselineFileTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-").FullName;

    private string Place => BaselineFile.Beside(Path.Combine(folder, "cullet.toml"));

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void A_new_version_leaves_the_older_ones_as_they_were()
    {
        var errors = new ConfigurationErrors(Place);
        Assert.Equal(Path.Combine(folder, "cullet.baseline.json"), Place);
        Assert.Empty(BaselineFile.Read(Place, errors)!.Versions);
        Assert.Equal(1, BaselineFile.Add(Place, Made(1.9), errors)!.Version);
        var before = File.ReadAllText(Place);
        Assert.Equal(2, BaselineFile.Add(Place, Made(0.1 + 0.2) with { Version = 1, Note = "new leaves" }, errors)!.Version);

        var history = BaselineFile.Read(Place, errors)!;
        Assert.Empty(errors);
        Assert.Equal([1.9, 0.1 + 0.2], history.Versions.Select(version => version.Find("stroke_mm")!.Mean));
        Assert.Equal(("new leaves", 2), (history.Current!.Note, history.Current.Version));
        Assert.Equal(Made(1.9).Features, history.Versions[0].Features);
        Assert.Equal(before, BaselineJson.Write(history with { Versions = [history.Versions[0]] }));
        Assert.Equal([Place], Directory.GetFiles(folder));
    }

    [Fact]
    public void The_file_reads_as_it_is_described()
    {
        BaselineFile.Add(Place, Made(2), new(Place));
        var lines = File.ReadAllLines(Place).Select(line => line.Trim());
        Assert.Equal(
            ["{", "\"form\": 1,", "\"versions\": [", "{", "\"version\": 1,", "\"origin\": \"learned\",", "\"made\": \"2026-03-16T06:00:00+00:00\",", "\"features\": [", "{", "\"name\": \"stroke_mm\",", "\"mean\": 2,"],
            lines.Take(11));
    }

    [Theory]
    [InlineData("{\"form\": 2, \"versions\": []}", "`form` is 2; this program reads form 1")]
    [InlineData("{\"form\": 1}", "is not a file of baselines: ")]
    [InlineData("{\"form\": 1, \"versions\": null}", "is not a file of baselines: ")]
    [InlineData("null", "is empty; baselines were expected")]
    [InlineData("{\"form\": 1, \"versions\": [null]}", "a list holds `null`")]
    [InlineData("[calibration]\nx = 1\n", "is not a file of baselines: ")]
    [InlineData("", "is not a file of baselines: ")]
    public void A_file_that_cannot_be_read_is_told_and_never_overwritten(string text, string expected)
    {
        File.WriteAllText(Place, text);
        var errors = new ConfigurationErrors(Place);
        Assert.Null(BaselineFile.Add(Place, Made(2), errors));
        var error = Assert.Single(errors);
        Assert.StartsWith(expected, error.Message, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', error.Message);
        Assert.Equal(text, File.ReadAllText(Place));
        Assert.Equal([Place], Directory.GetFiles(folder));
    }

    [Theory]
    [InlineData("\"version\": 1", "\"version\": 3", "`version` is 3 where 1 was expected: versions are numbered from 1 without a gap")]
    [InlineData("\"spread\": 0.02", "\"spread\": -0.02", "version 1: `spread` of stroke_mm must be a number at or above 0")]
    [InlineData("\"count\": 40", "\"count\": 2", "version 1: `count` of stroke_mm must be at least 3")]
    [InlineData("noise_m_s2", "stroke_mm", "version 1: stroke_mm is there twice")]
    [InlineData("\"count\": 40,", "", "version 1: `count` of stroke_mm is missing; a learned baseline says how many readings it rests on")]
    public void A_slip_of_the_pen_is_told(string right, string wrong, string expected)
    {
        BaselineFile.Add(Place, Made(2), new(Place));
        File.WriteAllText(Place, File.ReadAllText(Place).Replace(right, wrong, StringComparison.Ordinal));
        var errors = new ConfigurationErrors(Place);
        Assert.Null(BaselineFile.Read(Place, errors));
        Assert.Equal(expected, Assert.Single(errors).Message);
    }

    [Fact]
    public void Two_programs_do_not_add_at_once()
    {
        BaselineFile.Add(Place, Made(2), new(Place));
        var errors = new ConfigurationErrors(Place);
        using (new FileStream(Place + ".new", FileMode.OpenOrCreate, FileAccess.Write, FileShare.None))
        {
            Assert.Null(BaselineFile.Add(Place, Made(3), errors));
        }

        Assert.StartsWith("cannot be written: ", Assert.Single(errors).Message, StringComparison.Ordinal);
        Assert.Single(BaselineFile.Read(Place, errors)!.Versions);

        // What another left behind half written is written over.
        File.WriteAllText(Place + ".new", new string('x', 100_000));
        Assert.Equal(2, BaselineFile.Add(Place, Made(3), new(Place))!.Version);
        Assert.Equal(2, BaselineFile.Read(Place, errors)!.Versions.Count);
    }

    [Fact]
    public void Numbers_that_mean_nothing_are_not_kept()
    {
        var told = Made(double.NaN) with { Origin = BaselineOrigin.Told };
        Assert.Throws<ArgumentException>(() => BaselineHistory.Empty.Add(told));
        Assert.Throws<ArgumentException>(() => BaselineHistory.Empty.Add(told with { Features = [] }));
    }

    private static Baseline Made(double stroke)
    {
        var end = new DateTimeOffset(2026, 3, 16, 6, 0, 0, TimeSpan.Zero);
        BaselineFeature Feature(string name, double mean, double spread, int count) =>
            new() { Name = name, Mean = mean, Spread = spread, Count = count, From = end.AddDays(-14), To = end };
        return new()
        {
            Origin = BaselineOrigin.Learned,
            Made = end,
            Features = [Feature("stroke_mm", stroke, 0.02, 40), Feature("noise_m_s2", 0.08, 0.004, 41)],
        };
    }
}
