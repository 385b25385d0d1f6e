namespace StrokeWatch.Machine.Springs;

/// <summary>How a leaf's second end is held, the first being clamped.</summary>
public enum LeafEnds
{
    /// <summary>Clamped and at rest: the leaf sings between tray and body.</summary>
    Clamped,

    /// <summary>Free to move but not to turn: the leaf alone, carrying no tray.</summary>
    Guided,

    /// <summary>Free: a leaf held in a vice by one end.</summary>
    Free,
}
