namespace StrokeWatch.Session;

/// <summary>One step of a session: its question, and where an answer leads. Pure.</summary>
internal interface ISessionStep
{
    /// <summary>Gets the id, which never changes; a step that stands for several ends it with a colon and takes what follows.</summary>
    string Id { get; }

    /// <summary>Gives the question.</summary>
    SessionStep Ask(SessionScene scene);

    /// <summary>Takes an answer: the id of a choice where choices are offered, else what was typed.</summary>
    SessionTurn Answer(SessionScene scene, string answer);
}
