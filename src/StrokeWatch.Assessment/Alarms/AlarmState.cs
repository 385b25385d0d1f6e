namespace StrokeWatch.Assessment.Alarms;

/// <summary>The states of an alarm after IEC 62682 (ANSI/ISA-18.2), with its letters; from memory of the standard.</summary>
public enum AlarmState
{
    /// <summary>A: the condition does not hold, and nobody needs to know of anything.</summary>
    Normal,

    /// <summary>B: the condition holds and nobody has acknowledged it.</summary>
    Unacknowledged,

    /// <summary>C: the condition holds and was acknowledged.</summary>
    Acknowledged,

    /// <summary>D: the condition is over, but nobody has acknowledged that it held.</summary>
    ReturnedUnacknowledged,

    /// <summary>E: the condition is over, the alarm stays until it is acknowledged and reset.</summary>
    LatchedUnacknowledged,

    /// <summary>F: the condition is over and was acknowledged, the alarm stays until it is reset.</summary>
    LatchedAcknowledged,

    /// <summary>G: a person has put it aside, until a time.</summary>
    Shelved,

    /// <summary>H: it means nothing as the machine now is: the feeder is off or starting, or another alarm says the same.</summary>
    SuppressedByDesign,

    /// <summary>I: a person has taken it out of service, until it is put back.</summary>
    OutOfService,
}
