namespace StrokeWatch.Configuration;

/// <summary>The least important message that is still written to the log.</summary>
internal enum LogLevelName
{
    /// <summary>Everything, for finding a fault.</summary>
    Debug,

    /// <summary>What the daemon does; where the file says nothing.</summary>
    Information,

    /// <summary>What an operator should look at.</summary>
    Warning,

    /// <summary>Failures only.</summary>
    Error,
}
