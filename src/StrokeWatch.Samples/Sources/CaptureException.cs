namespace StrokeWatch.Samples.Sources;

/// <summary>A capture that cannot be read at all: its message is the one line that a user is shown (what, where, what to do).</summary>
public sealed class CaptureException : Exception
{
    /// <summary>Makes the exception with its one line.</summary>
    public CaptureException(string message)
        : base(message)
    {
    }

    /// <summary>Makes the exception with its one line and its cause.</summary>
    public CaptureException(string message, Exception cause)
        : base(message, cause)
    {
    }
}
