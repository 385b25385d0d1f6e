using System.Globalization;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Assessment.Verdicts;
using StrokeWatch.Measurement.Windows;
using StrokeWatch.Outputs.Store;

namespace StrokeWatch.Benchmarks;

/// <summary>Writes rows into a store until it is killed, and prints the number of each row once the store has confirmed it; the kill test's victim.</summary>
internal static class StoreWriter
{
    public static int Run(string[] args)
    {
        if (args.Length != 2 || !long.TryParse(args[1], NumberStyles.None, CultureInfo.InvariantCulture, out var first))
        {
            Console.Error.WriteLine("usage: store-writer DATABASE FIRST-NUMBER");
            return 2;
        }

        using var output = new StreamWriter(Console.OpenStandardOutput()) { AutoFlush = true, NewLine = "\n" };
        using var store = new SqliteStore(
            new StoreOptions { Path = args[0], Feeder = "Cullet feeder", CommitInterval = TimeSpan.FromMilliseconds(50), CommitRows = 20 }, TimeProvider.System);
        for (var n = first; ; n++)
        {
            var window = store.Window(
                new WindowReading { StartSeconds = n, LengthSeconds = 1, Quality = WindowQuality.Good, Motion = MotionState.Running, StrokeMetres = 1.6e-3 },
                Verdict.InBand);
            var alarm = n % 7 == 0 ? store.Alarm(new AlarmTransition(AlarmKind.LowStroke, n % 14 == 0, n, 1.4e-3, "Low stroke.")) : null;
            Announce(window, "W", n);
            if (alarm is not null)
            {
                Announce(alarm, "A", n);
            }

            if (n % 50 == 0)
            {
                window.Wait();
            }
        }

        void Announce(Task<bool> confirmed, string kind, long number) => confirmed.ContinueWith(
            done =>
            {
                if (done.Result)
                {
                    lock (output)
                    {
                        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{kind} {number}"));
                    }
                }
            },
            TaskScheduler.Default);
    }
}
