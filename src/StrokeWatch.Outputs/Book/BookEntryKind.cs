namespace StrokeWatch.Outputs.Book;

/// <summary>What an entry of the machine book is about; reminders go by the same kinds.</summary>
public enum BookEntryKind
{
    /// <summary>A set of leaf springs was put in.</summary>
    LeafSet,

    /// <summary>The air gap was set or gauged.</summary>
    AirGap,

    /// <summary>The coil assembly was changed.</summary>
    Coil,

    /// <summary>Bolts were tightened to a torque.</summary>
    BoltTorque,

    /// <summary>The machine was cleaned.</summary>
    Cleaning,

    /// <summary>The machine was inspected.</summary>
    Inspection,

    /// <summary>A note.</summary>
    Note,
}
