using Xunit;

namespace StrokeWatch.EndToEnd.Tests.Commands;

/// <summary>What people type wrong: each answer names the word at fault and what to do instead.</summary>
public sealed class WrongUseTests : IDisposable
{
    private static readonly string Wav = Repository.Capture("steady-50hz");
    private static readonly string Feeder = Repository.Feeder("steady-50hz");
    private readonly TempFolder folder = new();

    public void Dispose() => folder.Dispose();

    public static TheoryData<string, string[]> Wrong() => new()
    {
        { "strokewatch: no command is given; the commands are watch, replay, ", [] },
        { "strokewatch: unknown command 'relay'; did you mean replay?", ["relay", Wav, "--feeder", Feeder] },
        { "strokewatch: unknown command 'polish'; the commands are watch, replay, ", ["polish"] },
        { "strokewatch: unknown option --verbose; see strokewatch --help", ["--verbose"] },
        { "strokewatch replay: --feeder is missing, and there is no heap.feeder.toml beside the capture", ["replay", "heap.wav"] },
        { "strokewatch replay: unknown option --feder; did you mean --feeder?", ["replay", Wav, "--feder", Feeder] },
        { "strokewatch replay: unknown option --loud; see", ["replay", Wav, "--loud", "--feeder", Feeder] },
        { "strokewatch simulate: unknown option --seed; see", ["simulate", Feeder, "--out", "a.csv", "--seed", "4"] },
        { "strokewatch replay: CAPTURE is missing; see strokewatch replay --help", ["replay", "--feeder", Feeder] },
        { "strokewatch replay: --rate-hz: '0' is no number above 0", ["replay", Wav, "--feeder", Feeder, "--rate-hz", "0"] },
        { "strokewatch replay: --rate-hz: 'abc' is no number above 0; write it with a decimal point", ["replay", Wav, "--feeder", Feeder, "--rate-hz", "abc"] },
        { "strokewatch replay: --rate-hz: '3,5' is no number above 0; write it with a decimal point", ["replay", Wav, "--feeder", Feeder, "--rate-hz", "3,5"] },
        { "strokewatch replay: --rate-hz: '-5' is no number above 0", ["replay", Wav, "--feeder", Feeder, "--rate-hz", "-5"] },
        { "strokewatch replay: --full-scale-g: 'NaN' is no number above 0", ["replay", Wav, "--feeder", Feeder, "--full-scale-g", "NaN"] },
        { "strokewatch replay: --unit: 'feet' is not known; use g, mg, kilo_g, m_s2, mm_s2 or counts", ["replay", Wav, "--feeder", Feeder, "--unit", "feet"] },
        { "strokewatch replay: --columns: 'q' is no axis; write x, y, z or t before '='", ["replay", Wav, "--feeder", Feeder, "--columns", "q=1"] },
        { $"{Wav}: has no channel '9'; it has 3, counted from 1: choose with --columns", ["replay", Wav, "--feeder", Feeder, "--columns", "9"] },
        { "strokewatch replay: --skip-rows: '-1' is no whole number", ["replay", Wav, "--feeder", Feeder, "--skip-rows", "-1"] },
        { "--json nowhere/out.json: cannot be written", ["replay", Wav, "--feeder", Feeder, "--json", "nowhere/out.json"] },
        { $"{Wav}: is not text; a TOML file in UTF-8 was expected", ["replay", Wav, "--feeder", Wav] },
        { "watch.toml: there is no such file; check the path", ["watch", "--config", "watch.toml"] },
        { "watch.toml: there is no such file; check the path", ["record", "--config", "watch.toml", "--seconds", "3", "--out", "a.csv"] },
        { "strokewatch record: --seconds: '0' is no number above 0", ["record", "--config", "watch.toml", "--seconds", "0", "--out", "a.csv"] },
        { "strokewatch simulate: --out is missing; see strokewatch simulate --help", ["simulate", Feeder] },
        { "strokewatch simulate: SCENARIO and --out are missing; see strokewatch simulate --help", ["simulate"] },
        { "strokewatch alarms shelve: ALARM is missing; see strokewatch alarms shelve --help", ["alarms", "shelve", "--token-file", "t", "--reason", "spare", "--minutes", "5"] },
        { "strokewatch alarms shelve: ALARM, --reason and --minutes are missing; see", ["alarms", "shelve", "--token-file", "t"] },
        { "strokewatch simulate: --out needs a value after it; see strokewatch simulate --help", ["simulate", Feeder, "--out"] },
    };

    [Theory]
    [MemberData(nameof(Wrong))]
    public async Task The_answer_names_the_word_at_fault(string begins, string[] arguments)
    {
        var outcome = await Running.Run(folder.Path, arguments);
        outcome.ShouldRefuse(2, 1);
        Assert.StartsWith(begins, outcome.Error, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFileSystemEntries(folder.Path));
    }

    [Theory]
    [InlineData("steady-50hz", "steady-60hz", "the tray vibrates at 49.8 Hz, the feeder file says 60 Hz")]
    [InlineData("steady-120hz", "steady-60hz", "the tray vibrates at 120.0 Hz, the feeder file says 60 Hz")]
    [InlineData("steady-60hz", "steady-100hz", "the tray vibrates at 60.2 Hz, the feeder file says 100 Hz")]
    public async Task A_feeder_file_of_another_feeder_is_told_by_the_frequency(string capture, string feeder, string says)
    {
        var outcome = await Running.Run(folder.Path, "replay", Repository.Capture(capture), "--feeder", Repository.Feeder(feeder));
        Assert.Equal((3, ""), (outcome.Status, outcome.Error));
        Assert.Contains(says, outcome.Out, StringComparison.Ordinal);
        Assert.Contains("check supply_hz, strokes_per_cycle", outcome.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_feeder_file_in_place_of_the_configuration_is_told_what_it_lacks()
    {
        var outcome = await Running.Run(folder.Path, "watch", "--config", Feeder);
        Assert.Equal((2, ""), (outcome.Status, outcome.Out));
        outcome.ShouldBePlain();
        Assert.All(outcome.ErrorLines, line => Assert.StartsWith($"{Feeder}:", line, StringComparison.Ordinal));
        Assert.Contains(outcome.ErrorLines, line => line.Contains("`sensor` is missing", StringComparison.Ordinal));
    }
}
