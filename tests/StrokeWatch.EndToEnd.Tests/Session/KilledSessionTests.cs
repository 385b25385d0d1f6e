using System.Runtime.Versioning;
using Microsoft.Data.Sqlite;
using StrokeWatch.EndToEnd.Tests.Commands;
using StrokeWatch.Outputs.Book;
using StrokeWatch.Tests.Commands;
using Xunit;
using Xunit.Abstractions;

namespace StrokeWatch.EndToEnd.Tests.Session;

[SupportedOSPlatform("linux")]
public sealed class KilledSessionTests(ITestOutputHelper output) : IDisposable
{
    private const int Kills = 6, Seed = 2311;
    private const string Question = "== Tray empty";

    private readonly TempFolder folder = new();

    public void Dispose() => folder.Dispose();

    [SkippableFact]
    public async Task A_session_killed_at_any_instant_has_kept_every_answer_before_the_next_question()
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "pseudo-terminals are made by calls of Linux");
        folder.Write("cullet.toml", TunedMachine.Feeder);
        var random = new Random(Seed);
        long before = 0;
        for (var kill = 0; kill < Kills; kill++)
        {
            using var keys = new Keyboard(folder.Path, "tune", "session", "--feeder", "cullet.toml", kill == 0 ? "--new" : "--resume", "--who", "Kim");
            if (kill == 0)
            {
                await keys.Sees("== Cautions");
                keys.Presses("1");
                before = 1;
            }

            // Each answer is "no", which is kept, and the question is asked again.
            await keys.Sees(Question);
            keys.Presses(new string('2', 500));
            var reading = Task.Run(() => keys.Screen);
            await Task.Delay(random.Next(50, 900));
            await keys.Kills();
            await reading;
            var asked = keys.Screen.Split(Question).Length - 1;
            using var book = MachineBook.Open(folder.At("cullet.book.sqlite"), TimeProvider.System);
            var session = book.Sessions.Open()!;
            var kept = book.Sessions.Answers(session.Id).Count;
            output.WriteLine($"kill {kill}: asked {asked} times, {kept - before} answers kept");
            Assert.True(kept - before >= asked - 1, $"seed {Seed}, kill {kill}: {asked} questions were asked, {kept - before} answers kept");
            Assert.InRange(kept - before, 1, asked);
            Assert.Equal((kept, "empty"), ((int)session.Turn, session.Step));
            Assert.Equal("ok", Check());
            before = kept;
        }
    }

    private string? Check()
    {
        using var connection = new SqliteConnection($"Data Source={folder.At("cullet.book.sqlite")};Pooling=false");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = "PRAGMA integrity_check";
        return (string?)command.ExecuteScalar();
    }
}
