using System.Globalization;

namespace StrokeWatch.Outputs.Relay;

/// <summary>Looks whether a relay's chip may be used, without switching anything.</summary>
public static class RelayProbe
{
    /// <summary>Gives what stands in the way and what to do; null where the chip can be opened.</summary>
    public static string? Trouble(RelayOptions options)
    {
        var device = string.Create(CultureInfo.InvariantCulture, $"/dev/gpiochip{options.Chip}");
        try
        {
            if (!File.Exists(device))
            {
                return $"relay: {device} is not there; check `chip`, and whether this computer has GPIO lines (gpiodetect lists them)";
            }

            using var handle = File.OpenHandle(device, FileMode.Open, FileAccess.ReadWrite, FileShare.ReadWrite);
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return $"relay: {device} may not be used by this user ({e.Message.ReplaceLineEndings(" ").TrimEnd('.')}); put the user into the group gpio";
        }
    }
}
