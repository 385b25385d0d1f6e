namespace StrokeWatch.Sensors.Chips;

/// <summary>Words on what the system said of a bus.</summary>
internal static class BusFault
{
    /// <summary>Gives in a sentence what a failed transfer means and what to do.</summary>
    /// <remarks>The bus classes give the error's number in their message: 121 no acknowledgement, 110 time out, 5 and 6 no answer from the adapter (errno of Linux).</remarks>
    public static string Words(Exception fault)
    {
        var message = fault.Message.ReplaceLineEndings(" ");
        return message.Contains("Error 121", StringComparison.Ordinal) || message.Contains("Error 6.", StringComparison.Ordinal)
            ? "the chip does not acknowledge: check supply, wiring and `address`"
            : message.Contains("Error 110", StringComparison.Ordinal) ? "the bus is stuck (a line is held low): check wiring and pull-ups, or switch the sensor's supply off and on"
            : $"the bus failed ({message}): check wiring and supply";
    }
}
