namespace StrokeWatch.Outputs.Book;

/// <summary>How a tuning session stands.</summary>
public enum BookSessionState
{
    /// <summary>Not at its end: it is resumed where it was left.</summary>
    Open,

    /// <summary>At its end: the stroke is in its band and the record is signed.</summary>
    Done,

    /// <summary>Given up for a new one.</summary>
    Abandoned,
}
