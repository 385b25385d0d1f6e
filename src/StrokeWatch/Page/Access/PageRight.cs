namespace StrokeWatch.Page.Access;

/// <summary>Something that is not open to everybody who reads.</summary>
internal enum PageRight
{
    /// <summary>Acknowledging an alarm, and resetting one that latched.</summary>
    Acknowledge,

    /// <summary>Putting an alarm aside for a while, and taking it up again.</summary>
    Shelve,

    /// <summary>Putting an alarm aside for longer than operators may.</summary>
    ShelveLonger,

    /// <summary>Tuning the feeder.</summary>
    Tune,

    /// <summary>Writing a note into the machine book.</summary>
    Note,

    /// <summary>Taking an alarm out of service, and putting it back.</summary>
    OutOfService,

    /// <summary>Keeping a capture from being removed to make room, and letting it go again.</summary>
    KeepCapture,

    /// <summary>Putting a baseline in force.</summary>
    SetBaseline,

    /// <summary>Setting in the machine book what was done to the machine.</summary>
    SetBook,
}
