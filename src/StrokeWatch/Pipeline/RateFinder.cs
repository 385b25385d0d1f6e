using System.Globalization;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Measurement.Drive;
using StrokeWatch.Samples.Blocks;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Pipeline;

/// <summary>Finds the rate of a capture that does not say it, from the drive's own line: the mains keeps time.</summary>
internal static class RateFinder
{
    /// <summary>Gives the rate in Hz.</summary>
    /// <param name="file">The capture's name, for the error's line.</param>
    /// <param name="first">The first block of the capture.</param>
    /// <param name="feeder">The feeder, whose drive frequency is known.</param>
    /// <exception cref="CaptureException">No clear line, or the drive is free.</exception>
    public static (double RateHz, string Guess) Find(string file, SampleBlock first, FeederDescription feeder)
    {
        if (feeder.Drive.Free || StrongestLine.Find(first) is not { } line)
        {
            throw new CaptureException($"{file}: nothing says the sampling rate; give it with --rate-hz");
        }

        var rate = feeder.Drive.NominalHz / line;
        return (rate, string.Create(CultureInfo.InvariantCulture, $"the sampling rate, {rate:0.0} Hz, was taken from the drive's own line: nothing else says it"));
    }
}
