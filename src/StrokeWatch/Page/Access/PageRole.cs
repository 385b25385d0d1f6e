namespace StrokeWatch.Page.Access;

/// <summary>What somebody is at the feeder; each may do all that the one before may.</summary>
internal enum PageRole
{
    /// <summary>Runs the feeder: acknowledges, resets and shelves alarms.</summary>
    Operator,

    /// <summary>Works on it: also tunes it and writes notes.</summary>
    Technician,

    /// <summary>Answers for it: also takes alarms out of service and sets what is in the book.</summary>
    Engineer,
}
