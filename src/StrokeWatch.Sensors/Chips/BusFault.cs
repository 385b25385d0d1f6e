using System.Globalization;

namespace StrokeWatch.Sensors.Chips;

/// <summary>Words on what the system said of a bus.</summary>
internal static class BusFault
{
    /// <summary>Gives in a sentence what a failed transfer means and what to do.</summary>
    /// <remarks>The bus classes give the error's number in their message: 121 no acknowledgement, 110 time out, 5 and 6 no answer from the adapter (errno of Linux).</remarks>
    public static string Words(Exception fault)
    {
        var message = fault.Message.ReplaceLineEndings(" ");
        return Number(message) is 121 or 6
            ? "the chip does not acknowledge: check supply, wiring and `address`"
            : Number(message) == 110 ? "the bus is stuck (a line is held low): check wiring and pull-ups, or switch the sensor's supply off and on"
            : $"the bus failed ({message}): check wiring and supply";
    }
    /// <summary>Gives the error's number in a message of the bus classes, "Error 121 …" or "Error 121. …"; null where there is none.</summary>
    public static int? Number(string message)
    {
        const string Before = "Error ";
        var at = message.IndexOf(Before, StringComparison.Ordinal);
        var digits = at < 0 ? "" : string.Concat(message[(at + Before.Length)..].TakeWhile(char.IsAsciiDigit));
        return int.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : null;
    }
}
