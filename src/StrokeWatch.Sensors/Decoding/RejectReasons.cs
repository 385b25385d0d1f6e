namespace StrokeWatch.Sensors.Decoding;

/// <summary>The names under which rejected frames and lines are counted; they never change once written.</summary>
internal static class RejectReasons
{
    /// <summary>Gives a reason's name.</summary>
    public static string Name(RejectReason reason) => reason switch
    {
        RejectReason.Joining => "joining",
        RejectReason.Rubbish => "rubbish",
        RejectReason.Length => "length",
        RejectReason.Frame => "frame",
        RejectReason.Checksum => "checksum",
        RejectReason.Columns => "columns",
        RejectReason.Number => "number",
        RejectReason.Range => "range",
        RejectReason.Axes => "axes",
        _ => "order",
    };
}
