using System.Collections.Concurrent;

namespace StrokeWatch.Session;

/// <summary>Answers as lines, from a pipe or a file.</summary>
internal sealed class LineAnswers : IAnswers
{
    private readonly BlockingCollection<string> lines = [];
    private readonly TextWriter echo;
    private readonly CancellationToken stop;

    /// <summary>Begins to read.</summary>
    public LineAnswers(TextReader input, TextWriter echo, CancellationToken stop)
    {
        (this.echo, this.stop) = (echo, stop);
        new Thread(() => Read(input)) { IsBackground = true, Name = "answers" }.Start();
    }

    /// <inheritdoc/>
    public string? Next(SessionStep step)
    {
        try
        {
            if (!lines.TryTake(out var line, Timeout.Infinite, stop))
            {
                return null;
            }

            echo.WriteLine(line);
            return line;
        }
        catch (OperationCanceledException)
        {
            return null;
        }
    }

    /// <inheritdoc/>
    public bool Pressed() => false;

    private void Read(TextReader input)
    {
        try
        {
            while (input.ReadLine() is { } line)
            {
                lines.Add(line);
            }
        }
        catch (IOException)
        {
            // A terminal that was hung up ends the input as an end of file does.
        }

        lines.CompleteAdding();
    }
}
