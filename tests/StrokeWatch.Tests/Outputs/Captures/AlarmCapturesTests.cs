using System.Diagnostics;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Outputs.Captures;
using StrokeWatch.Samples.Blocks;
using Xunit;
using static StrokeWatch.Tests.Outputs.Captures.CaptureBench;

namespace StrokeWatch.Tests.Outputs.Captures;

public sealed class AlarmCapturesTests : IDisposable
{
    private readonly CaptureBench bench = new();

    public void Dispose() => bench.Dispose();

    [Fact]
    public async Task Ten_seconds_before_an_alarm_and_twenty_after_it_are_kept_exactly_as_read()
    {
        bench.Start().Feed(13);
        bench.Alarm();
        await Until(() => bench.Captures.Writing == 1);
        await bench.Flow(25);
        var waveform = Assert.Single(await bench.Waveforms(1));
        Assert.Equal((new(AlarmKind.OverStroke), Noon.AddSeconds(13), "20260329T120013Z-over-stroke.wav"), (waveform.Id, waveform.At, waveform.File));
        Assert.Equal((Noon.AddSeconds(3), 30.0, 0L, true), (waveform.From, waveform.LengthSeconds, waveform.LostSamples, waveform.Whole));
        var (info, samples, gaps) = bench.Read(waveform.File);
        Assert.Equal(Range(3000, 33_000), samples);
        Assert.Empty(gaps);
        Assert.Equal((RateHz, Info.FullScale, waveform.From), (info.RateHz, info.FullScale, info.Recorded));
        Assert.Equal([waveform.File], Directory.GetFiles(bench.Folder).Select(Path.GetFileName));
        Assert.Null(bench.Captures.Trouble);
    }

    [Fact]
    public async Task An_alarm_within_the_span_of_another_shares_its_file_and_draws_it_out()
    {
        bench.Start().Feed(4);
        bench.Alarm();
        bench.Feed(5);
        bench.Alarm(AlarmKind.Strike);
        bench.Alarm(AlarmKind.Strike, raised: false);
        bench.Alarm(AlarmKind.LowStroke);
        await Until(() => bench.Captures.Writing == 1);
        await bench.Flow(22);
        var waveforms = await bench.Waveforms(2);
        Assert.Equal([AlarmKind.OverStroke, AlarmKind.Strike], waveforms.Select(waveform => waveform.Id.Kind));
        Assert.Equal([Noon.AddSeconds(4), Noon.AddSeconds(9)], waveforms.Select(waveform => waveform.At));
        Assert.Single(waveforms.Select(waveform => waveform.File).Distinct());
        Assert.Equal(Range(0, 29_000), bench.Read(waveforms[0].File).Samples);
        Assert.Single(Directory.GetFiles(bench.Folder));
    }

    [Fact]
    public async Task Alarms_without_end_begin_another_file_after_the_longest()
    {
        bench.Start(options => options with { Longest = TimeSpan.FromSeconds(60) });
        for (var i = 0; i < 6; i++)
        {
            bench.Feed(15);
            bench.Alarm();
            await Until(() => bench.Captures.Trouble is null && Directory.Exists(bench.Folder) && Directory.GetFiles(bench.Folder, "*.wav*").Length > 0);
            await Task.Delay(300);
        }

        bench.Feed(22);
        var files = (await bench.Waveforms(6)).GroupBy(waveform => waveform.File).ToList();
        Assert.Equal(2, files.Count);
        Assert.All(files, file => Assert.InRange(file.First().LengthSeconds, 20, 60));
    }

    [Fact]
    public async Task A_gap_stays_a_gap_and_a_sensor_that_falls_silent_ends_the_file_by_the_clock()
    {
        bench.Start().Feed(6);
        bench.Feed(2, missing: 250);
        bench.Clock.Advance(TimeSpan.FromSeconds(2));
        bench.Alarm(AlarmKind.SensorLost);
        await Until(() => bench.Captures.Writing == 1);
        bench.Clock.Advance(TimeSpan.FromSeconds(22));
        var waveform = Assert.Single(await bench.Waveforms(1));
        Assert.Equal((250L, false, 8.25), (waveform.LostSamples, waveform.Whole, waveform.LengthSeconds));
        var (_, samples, gaps) = bench.Read(waveform.File);
        Assert.Equal([.. Range(0, 6000), .. Range(6250, 8250)], samples);
        Assert.Equal([(6000, 250L)], gaps);

        // The newest sample was two seconds old when the alarm came, and the gap took its time before that.
        Assert.Equal(Noon.AddSeconds(8 - 8.25), waveform.From);
    }

    [Fact]
    public async Task Devices_with_clocks_of_their_own_have_a_file_each_an_alarm_of_one_place_only_that_one_s()
    {
        var kept = new List<string>();
        var two = new AlarmCaptures(
            new() { Folder = bench.Folder, ReserveBytes = 0 }, [[SensorPlace.Front], [SensorPlace.Rear]], bench.Clock, waveform => kept.Add(waveform.File), _ => { });
        var block = new SampleBlock(1, 100) { RateHz = RateHz };
        block.SetCount(100);
        two.Take(0, block, Info);
        two.Take(1, block, Info);
        two.Alarm(new(AlarmKind.SensorLost, true, 0, null, "Sensor lost.") { Place = SensorPlace.Rear });
        await Until(() => Directory.Exists(bench.Folder) && Directory.GetFiles(bench.Folder, "*.part").Length == 1);
        bench.Clock.Advance(TimeSpan.FromSeconds(30));
        await Until(() => kept.Count == 1);
        two.Alarm(new(AlarmKind.Strike, true, 0, null, "Strike."));
        two.Dispose();
        Assert.Equal(
            ["20260329T120000Z-sensor-lost-rear.wav", "20260329T120030Z-strike-front.wav", "20260329T120030Z-strike-rear.wav"], kept);
    }

    [Fact]
    public async Task Only_the_alarms_asked_for_are_kept_those_of_high_and_medium_priority_where_nothing_is_said()
    {
        Assert.Equal(
            [AlarmKind.OverStroke, AlarmKind.Strike, AlarmKind.HighStroke, AlarmKind.SensorLost, AlarmKind.SensorStuck], AlarmCaptureOptions.Usual);
        bench.Start(options => options with { Kinds = [AlarmKind.LowStroke] }).Feed(1);
        bench.Alarm();
        bench.Alarm(AlarmKind.LowStroke);
        await Until(() => bench.Captures.Writing == 1);
        bench.Start();
        Assert.Equal([AlarmKind.LowStroke], (await bench.Waveforms(1)).Select(waveform => waveform.Id.Kind));
    }

    [Fact]
    public async Task What_a_kill_leaves_half_written_is_finished_at_the_next_start_with_its_gaps_and_alarms()
    {
        bench.Start().Feed(12);
        bench.Alarm();
        await Until(() => bench.Captures.Writing == 1);
        bench.Feed(1, missing: 40);
        bench.Alarm(AlarmKind.Strike);
        await Until(() => Directory.GetFiles(bench.Folder, "*.notes").Any(notes => File.ReadAllText(notes).Contains("strike", StringComparison.Ordinal)));
        await bench.Flow(9);
        var partial = Directory.GetFiles(bench.Folder, "*.part").Single();
        await Until(() => new FileInfo(partial).Length > 4 * 17_000);

        // The folder as it is at this instant is what a kill leaves.
        using var after = new CaptureBench();
        Directory.CreateDirectory(after.Folder);
        foreach (var file in Directory.GetFiles(bench.Folder))
        {
            File.Copy(file, Path.Combine(after.Folder, Path.GetFileName(file)));
        }

        File.WriteAllText(Path.Combine(after.Folder, "20260101T000000Z-strike.wav.part"), "RIFF");
        File.WriteAllText(Path.Combine(after.Folder, "20260101T000000Z-strike-2.wav.part.notes"), "alarm strike 1");
        File.WriteAllText(Path.Combine(after.Folder, "notes of mine.txt"), "kept");
        after.Start();
        var waveforms = await after.Waveforms(2);
        await Until(() => Directory.GetFiles(after.Folder).Length == 2);
        Assert.Equal([AlarmKind.OverStroke, AlarmKind.Strike], waveforms.Select(waveform => waveform.Id.Kind));
        Assert.All(waveforms, waveform => Assert.False(waveform.Whole));
        Assert.Equal(40, waveforms[0].LostSamples);
        var (_, samples, gaps) = after.Read(waveforms[0].File);
        Assert.Equal([(10_000, 40L)], gaps);
        Assert.InRange(samples.Count, 17_000, 20_000);
        Assert.Equal(Range(2000, 12_000), samples.Take(10_000));
        Assert.Equal(Range(12_040, 12_040 + samples.Count - 10_000), samples.Skip(10_000));
        Assert.Equal(Noon.AddSeconds(2), waveforms[0].From);
        Assert.Equal(["20260329T120012Z-over-stroke.wav", "notes of mine.txt"], Directory.GetFiles(after.Folder).Select(Path.GetFileName).Order());
    }

    [Fact]
    public async Task The_quota_is_kept_by_removing_the_oldest_that_nobody_pinned_never_the_one_being_written()
    {
        Directory.CreateDirectory(bench.Folder);
        foreach (var name in (string[])["20250101T000000Z-strike", "20250102T000000Z-strike", "20250103T000000Z-strike", "20250104T000000Z-over-stroke"])
        {
            File.WriteAllBytes(Path.Combine(bench.Folder, name + ".wav"), new byte[200_000]);
            File.WriteAllText(Path.Combine(bench.Folder, name + ".feeder.toml"), "name = 'x'");
        }

        File.WriteAllText(Path.Combine(bench.Folder, "20250102T000000Z-strike.keep"), "");
        File.WriteAllText(Path.Combine(bench.Folder, "somebody's.wav"), new string('x', 900_000));
        bench.Start(options => options with { QuotaBytes = 650_000, Keep = ["20250101T000000Z-strike"] }).Feed(12);
        bench.Alarm();
        await Until(() => bench.Captures.Writing == 1 && bench.Removed.Count == 2);
        bench.Feed(5);
        bench.Alarm(AlarmKind.Strike);

        // The disk takes its time; seconds of a test's clock do not wait for it.
        await Until(() => bench.Captures.Writing == 1);
        await bench.Flow(25);
        await Until(() => bench.Captures.Trouble is not null || bench.Kept.Count > 0);
        Assert.Equal(["20250103T000000Z-strike.wav", "20250104T000000Z-over-stroke.wav"], bench.Removed);
        Assert.Equal(
            ["20250101T000000Z-strike.feeder.toml", "20250101T000000Z-strike.wav", "20250102T000000Z-strike.feeder.toml", "20250102T000000Z-strike.keep", "20250102T000000Z-strike.wav", "somebody's.wav"],
            Directory.GetFiles(bench.Folder).Select(Path.GetFileName).Where(name => !name!.StartsWith("2026", StringComparison.Ordinal)).Order(StringComparer.Ordinal));
        Assert.Equal(35, (await bench.Waveforms(1))[0].LengthSeconds);
    }

    [Fact]
    public async Task A_folder_that_cannot_take_any_is_trouble_in_a_sentence_until_it_can()
    {
        // The folder goes bad only once all is under way, so that the trouble is the alarm's own and nothing is left to be begun when it ends.
        bench.Start().Feed(2);
        await Until(() => Directory.Exists(bench.Folder));
        Directory.Delete(bench.Folder, recursive: true);
        File.WriteAllText(bench.Folder, "a file where a folder should be");
        bench.Alarm();
        await Until(() => bench.Captures is { Trouble: not null, Writing: 0 });
        Assert.StartsWith($"waveforms of alarms cannot be kept in {bench.Folder} (", bench.Captures.Trouble, StringComparison.Ordinal);
        File.Delete(bench.Folder);
        await Until(() => bench.Captures.Trouble is null);
        bench.Alarm();
        bench.Start();
        Assert.Single(await bench.Waveforms(1));
    }

    [SkippableFact]
    public async Task A_full_disk_is_trouble_that_says_so_and_what_was_kept_stays_readable()
    {
        var disk = Directory.CreateDirectory(Path.Combine(bench.Root, "disk")).FullName;
        Skip.IfNot(OperatingSystem.IsLinux() && Run("mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", disk), "A small file system cannot be mounted here.");
        try
        {
            var filler = Path.Combine(disk, "filler");
            bench.Start(options => options with { Folder = Path.Combine(disk, "captures") }).Feed(12);
            bench.Alarm();
            await Until(() => bench.Captures.Writing == 1);
            await bench.Flow(22);
            var first = Assert.Single(await bench.Waveforms(1));
            await File.WriteAllBytesAsync(filler, new byte[860_000]);
            Directory.GetFiles(Path.Combine(disk, "captures"), "*.wav").ToList().ForEach(path => File.WriteAllText(Path.ChangeExtension(path, "keep"), ""));
            bench.Alarm();
            await Until(() => bench.Captures.Trouble is not null);
            Assert.Contains("is full", bench.Captures.Trouble, StringComparison.Ordinal);
            Assert.Single(bench.Kept);
            Assert.Equal(120_000, new FileInfo(Path.Combine(disk, "captures", first.File)).Length, 1000.0);

            File.Delete(filler);
            bench.Alarm();
            await Until(() => bench.Captures.Writing == 1);
            await bench.Flow(22);
            Assert.Equal(2, (await bench.Waveforms(2)).Count);
            await Until(() => bench.Captures.Trouble is null);
        }
        finally
        {
            bench.Captures.Dispose();
            Assert.True(Run("umount", disk));
        }
    }

    private static bool Run(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true })!;
        process.WaitForExit();
        return process.ExitCode == 0;
    }
}
