using System.Diagnostics;
using StrokeWatch.Outputs.Store;
using Xunit;
using static StrokeWatch.Tests.Outputs.Store.StoreFolder;

namespace StrokeWatch.Tests.Outputs.Store;

public sealed class ReadOnlyDiskTests : IDisposable
{
    private readonly StoreFolder folder = new();

    public void Dispose() => folder.Dispose();

    [SkippableFact]
    public async Task A_file_system_that_turns_read_only_is_trouble_that_is_said_and_alarms_are_written_once_it_is_over()
    {
        var disk = Directory.CreateDirectory(Path.Combine(folder.Folder, "disk")).FullName;
        Skip.IfNot(OperatingSystem.IsLinux() && Run("mount", "-t", "tmpfs", "-o", "size=6m", "tmpfs", disk), "A small file system cannot be mounted here.");
        try
        {
            var options = folder.Options with { Path = Path.Combine(disk, "store.db") };
            using (var first = new SqliteStore(options, folder.Clock))
            {
                Assert.True(await Soon(first.Event(StoreEventKind.Start, "started")));
            }

            Assert.True(Run("mount", "-o", "remount,ro", disk));
            using var store = new SqliteStore(options, folder.Clock);
            var alarm = store.Alarm(Alarm(1));
            await folder.Until(store, h => h.State == StoreState.Trouble);
            Assert.False(alarm.IsCompleted);
            Assert.Contains("can only be read", store.Health.Trouble, StringComparison.Ordinal);
            Assert.True(Run("mount", "-o", "remount,rw", disk));
            await folder.Until(store, h => h is { State: StoreState.Working, Waiting: 0 });
            Assert.True(await Soon(alarm));
            store.Dispose();
            using var reader = new StoreReader(options.Path);
            Assert.Null(reader.IntegrityCheck());
            Assert.Single(reader.Alarms(DateTimeOffset.UnixEpoch, Noon.AddYears(1)));
        }
        finally
        {
            Assert.True(Run("umount", disk));
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
