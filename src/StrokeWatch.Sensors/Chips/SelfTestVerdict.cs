namespace StrokeWatch.Sensors.Chips;

/// <summary>What a chip's self-test gave.</summary>
public enum SelfTestVerdict
{
    /// <summary>Each axis moved by what the data sheet allows.</summary>
    Passed,

    /// <summary>An axis moved, but by more or less than that.</summary>
    OutOfLimits,

    /// <summary>An axis did not move: nothing that is read from it can be believed.</summary>
    Dead,

    /// <summary>The tray moved too much to tell.</summary>
    NotJudged,
}
