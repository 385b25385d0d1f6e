namespace StrokeWatch.Page.Access;

/// <summary>What somebody is at the feeder; each may do all that the one before may.</summary>
internal enum PageRole
{
    /// <summary>Runs the feeder: acknowledges, resets and shelves alarms.</summary>
    Operator,

    /// <summary>Works on it: also tunes it, writes notes and keeps captures.</summary>
    Technician,

    /// <summary>Answers for it: also takes alarms out of service, sets what is in the book and puts baselines in force.</summary>
    Engineer,
}
