using Microsoft.Data.Sqlite;
using StrokeWatch.Outputs.Book;

namespace StrokeWatch.Tests.Outputs.Book;

/// <summary>A folder with a book in it for one test.</summary>
internal sealed class BookFolder : IDisposable
{
    public static readonly DateTimeOffset Noon = new(2026, 3, 29, 12, 0, 0, TimeSpan.Zero);

    public string Folder { get; } = Directory.CreateTempSubdirectory("strokewatch-book-").FullName;

    public string File => Path.Combine(Folder, "cullet.book.sqlite");

    public MachineBook Open() => MachineBook.Open(File, TimeProvider.System);

    public static SessionMove Move(string answered, string step, DateTimeOffset? at = null) =>
        new() { Utc = at ?? Noon, Answered = answered, Answer = "1", Step = step, Memory = "{}" };

    /// <summary>Runs a statement as another program would.</summary>
    public string? Sql(string text)
    {
        using var connection = new SqliteConnection($"Data Source={File};Pooling=false");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = text;
        return command.ExecuteScalar()?.ToString();
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
