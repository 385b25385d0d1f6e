namespace StrokeWatch.Session;

/// <summary>Brings a person's answers.</summary>
internal interface IAnswers
{
    /// <summary>Waits for the answer to a question; null where none will come: the input has ended, or the program is told to stop.</summary>
    string? Next(SessionStep step);

    /// <summary>Says whether anything was pressed since the last question, and forgets it.</summary>
    bool Pressed();
}
