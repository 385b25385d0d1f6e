using System.Diagnostics;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Outputs.Store;
using Xunit;
using static StrokeWatch.Tests.Outputs.Store.StoreFolder;

namespace StrokeWatch.Tests.Outputs.Store;

public sealed class FullDiskTests : IDisposable
{
    private readonly StoreFolder folder = new();

    public void Dispose() => folder.Dispose();

    [SkippableFact]
    public async Task On_a_full_disk_alarms_still_go_in_windows_wait_and_all_is_well_once_there_is_room()
    {
        var disk = Directory.CreateDirectory(Path.Combine(folder.Folder, "disk")).FullName;
        Skip.IfNot(OperatingSystem.IsLinux() && Run("mount", "-t", "tmpfs", "-o", "size=6m", "tmpfs", disk), "A small file system cannot be mounted here.");
        try
        {
            await FillAndFree(disk);
        }
        finally
        {
            Assert.True(Run("umount", disk));
        }
    }

    private async Task FillAndFree(string disk)
    {
        var options = folder.Options with { Path = Path.Combine(disk, "store.db"), BallastBytes = 1 << 20 };
        using (var store = new SqliteStore(options, folder.Clock))
        {
            Assert.True(await Soon(store.Event(StoreEventKind.Start, "started")));
            Assert.Equal(1 << 20, new FileInfo(options.Path + ".ballast").Length);
            var filler = Path.Combine(disk, "filler");
            await File.WriteAllBytesAsync(filler, new byte[3 << 20]);
            var windows = new List<Task<bool>>();
            for (var n = 0; store.Health.State != StoreState.Full && n < 30_000; n++)
            {
                windows.Add(store.Window(Reading(n) with { Reason = new string('r', 200) }, Verdict.InBand));
                if (n % 200 == 199)
                {
                    await folder.Until(store, h => h.Waiting == 0 || h.State == StoreState.Full);
                }
            }

            Assert.Equal(StoreState.Full, store.Health.State);
            Assert.Contains("the disk is full", store.Health.Trouble, StringComparison.Ordinal);
            for (var n = 0; n < 100; n++)
            {
                Assert.True(await Soon(store.Alarm(Alarm(n))), store.Health.ToString());
            }

            var waiting = windows.Count(w => !w.IsCompleted);
            Assert.True(waiting > 0);
            Assert.Equal(StoreState.Full, store.Health.State);
            File.Delete(filler);
            await folder.Until(store, h => h is { State: StoreState.Working, Waiting: 0 });
            Assert.All(await Soon(Task.WhenAll(windows)), Assert.True);
            Assert.Equal(1 << 20, new FileInfo(options.Path + ".ballast").Length);
            using var reader = new StoreReader(options.Path);
            Assert.Null(reader.IntegrityCheck());
            Assert.Equal(100, reader.Alarms(DateTimeOffset.UnixEpoch, Noon.AddYears(1)).Count);
            Assert.Equal(windows.Count, reader.Windows(DateTimeOffset.UnixEpoch, Noon.AddYears(1), 100_000).Count);
            Assert.Contains(reader.Events(DateTimeOffset.UnixEpoch, Noon.AddYears(1)), e => e.Kind == StoreEventKind.StoreTrouble);
        }
    }

    private static bool Run(string program, params string[] arguments)
    {
        try
        {
            using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true })!;
            process.WaitForExit();
            return process.ExitCode == 0;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return false;
        }
    }
}
