using System.Text;

namespace StrokeWatch.Commands;

/// <summary>Reads a secret from a terminal without showing it, or from standard input; never from an argument, which others on the machine could read.</summary>
internal static class SecretInput
{
    private const char Back = '\b', Delete = '\u007f', Escape = '\u001b', Interrupt = '\u0003';

    /// <summary>Reads a line; null where none came.</summary>
    public static string? Line(Surroundings surroundings) => surroundings.Input.ReadLine();

    /// <summary>Asks for a line of keys; null where it was given up.</summary>
    public static string? Keys(string prompt, Func<char> read, Surroundings surroundings)
    {
        surroundings.Error.Write(prompt);
        var typed = new StringBuilder();
        try
        {
            while (true)
            {
                // A key is waited for on another thread, for a signal must end the waiting.
                var next = Task.Run(read);
                next.Wait(surroundings.Stop);
                switch (next.Result)
                {
                    case '\r' or '\n':
                        return typed.ToString();
                    case Escape or Interrupt:
                        return null;
                    case Back or Delete:
                        typed.Length = Math.Max(0, typed.Length - 1);
                        break;
                    case var key when !char.IsControl(key):
                        typed.Append(key);
                        break;
                }
            }
        }
        catch (OperationCanceledException)
        {
            return null;
        }
        finally
        {
            surroundings.Error.WriteLine();
        }
    }
}
