using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Samples.Csv;

/// <summary>Decides which rate is believed: the user's, then the time column's, then the header's, then none.</summary>
internal static class CsvRate
{
    /// <summary>A trailer is looked for in so many bytes at the end.</summary>
    private const int TrailerBytes = 4096;

    /// <summary>Chooses the rate; doubts are added to the guesses.</summary>
    public static (double? Hz, RateOrigin From) Choose(
        CaptureOptions options, TimestampStatistics? times, PreambleHints header, PreambleHints trailer, List<string> guesses)
    {
        if (options.RateHz is { } said)
        {
            return (said, RateOrigin.Option);
        }

        var hints = header.RateHz is null ? trailer : header;
        if (times is not null)
        {
            var rate = 1 / times.StepSeconds;
            if (hints.RateHz is { } stated && Math.Abs(stated - rate) > 0.01 * rate)
            {
                guesses.Add(FormattableString.Invariant($"the header states {stated:0.###} Hz; the time column shows {rate:0.###} Hz and was believed"));
            }

            return (rate, RateOrigin.Timestamps);
        }

        if (hints.RateHz is not { } alone)
        {
            return (null, RateOrigin.Supply);
        }

        if (hints.StepText is { } digits && SignificantDigits(digits) is var count and <= 4)
        {
            guesses.Add(FormattableString.Invariant(
                $"the rate {alone:0.###} Hz comes from the header's step of {digits} with {count} digits; give the true one with --rate-hz"));
        }

        return (alone, RateOrigin.Header);
    }

    /// <summary>Shows the last lines of the file to the hints: some programs state the rate only there.</summary>
    public static void ReadTrailer(CaptureBytes bytes, TextKind kind, PreambleHints hints)
    {
        using var stream = bytes.Open();
        if (kind.Utf16 is not null || !stream.CanSeek)
        {
            return;
        }

        stream.Position = Math.Max(0, stream.Length - TrailerBytes);
        using var lines = new ByteLines(stream, kind.LineEnd, TrailerBytes * 2);
        while (lines.TryNext(out var line))
        {
            if (line.IndexOfAnyInRange((byte)'a', (byte)'z') >= 0)
            {
                hints.Feed(TextKind.Decode(line));
            }
        }
    }

    private static int SignificantDigits(string number)
    {
        var mantissa = number.Split('e', 'E')[0];
        return mantissa.Where(char.IsAsciiDigit).SkipWhile(d => d == '0').Count();
    }
}
