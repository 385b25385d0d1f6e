namespace StrokeWatch.Assessment.Alarms;

/// <summary>What may happen to an alarm.</summary>
public enum AlarmAct
{
    /// <summary>Its condition has held for the on-delay.</summary>
    Activate,

    /// <summary>Its condition has been gone for the off-delay.</summary>
    Clear,

    /// <summary>A person acknowledges it.</summary>
    Acknowledge,

    /// <summary>A person resets it after it latched.</summary>
    Reset,

    /// <summary>A person puts it aside until a time.</summary>
    Shelve,

    /// <summary>A person takes it up again before that time.</summary>
    Unshelve,

    /// <summary>The time until which it was put aside has come.</summary>
    ShelfEnds,

    /// <summary>The machine's own state makes it meaningless.</summary>
    Suppress,

    /// <summary>The machine's state gives it its meaning back.</summary>
    Unsuppress,

    /// <summary>A person takes it out of service.</summary>
    TakeOutOfService,

    /// <summary>A person puts it back into service.</summary>
    ReturnToService,
}
