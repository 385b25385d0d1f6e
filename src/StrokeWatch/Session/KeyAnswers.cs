using System.Collections.Concurrent;
using System.Text;

namespace StrokeWatch.Session;

/// <summary>Answers as single keys from a terminal; words are typed and ended with Enter.</summary>
internal sealed class KeyAnswers : IAnswers
{
    private const char Back = '\b', Delete = '\u007f', Escape = '\u001b';

    /// <summary>Who types a choice's key and then Enter by habit has answered once, not twice.</summary>
    private static readonly TimeSpan Habit = TimeSpan.FromMilliseconds(400);

    private readonly BlockingCollection<char> keys = [];
    private readonly TextWriter echo;
    private readonly TimeProvider time;
    private readonly CancellationToken stop;
    private long? chosen;

    /// <summary>Begins to read.</summary>
    /// <param name="read">Waits for a key and gives its character.</param>
    /// <param name="echo">Where keys are shown.</param>
    /// <param name="time">The clock.</param>
    /// <param name="stop">Ends the waiting.</param>
    public KeyAnswers(Func<char> read, TextWriter echo, TimeProvider time, CancellationToken stop)
    {
        (this.echo, this.time, this.stop) = (echo, time, stop);
        new Thread(() => Read(read)) { IsBackground = true, Name = "keys" }.Start();
    }

    /// <inheritdoc/>
    public string? Next(SessionStep step)
    {
        try
        {
            return step.Choices.Count > 0 ? Choice() : Words();
        }
        catch (OperationCanceledException)
        {
            return null;
        }
    }

    /// <inheritdoc/>
    public bool Pressed()
    {
        var any = false;
        while (keys.TryTake(out _))
        {
            any = true;
        }

        return any;
    }

    private static bool IsEnter(char key) => key is '\r' or '\n';

    private string? Choice()
    {
        while (Take() is { } key)
        {
            if (IsEnter(key))
            {
                echo.WriteLine();
                return "";
            }

            if (key == Escape || !char.IsControl(key))
            {
                var answer = key == Escape ? 'b' : key;
                echo.WriteLine(answer);
                chosen = time.GetTimestamp();
                return answer.ToString();
            }
        }

        return null;
    }

    private string? Words()
    {
        var line = new StringBuilder();
        while (Take() is { } key)
        {
            if (IsEnter(key))
            {
                echo.WriteLine();
                return line.ToString();
            }

            if (key is Back or Delete)
            {
                if (line.Length > 0)
                {
                    line.Length--;
                    echo.Write("\b \b");
                }
            }
            else if (!char.IsControl(key))
            {
                line.Append(key);
                echo.Write(key);
            }
        }

        return null;
    }

    private char? Take()
    {
        while (keys.TryTake(out var key, Timeout.Infinite, stop))
        {
            var habit = chosen is { } at && IsEnter(key) && time.GetElapsedTime(at) < Habit;
            chosen = null;
            if (!habit)
            {
                return key;
            }
        }

        return null;
    }

    private void Read(Func<char> read)
    {
        try
        {
            while (true)
            {
                keys.Add(read());
            }
        }
        catch (Exception trouble) when (trouble is IOException or InvalidOperationException)
        {
            // A terminal that was hung up gives no more keys.
            keys.CompleteAdding();
        }
    }
}
