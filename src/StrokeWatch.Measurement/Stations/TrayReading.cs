using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Measurement.Stations;

/// <summary>
/// The one reading that is judged, from those of several sensors in the same window: the mean stroke of the tray's sensors that count, with the largest
/// of them beside it. The body never enters.
/// </summary>
public static class TrayReading
{
    private const string NoTray = "no sensor on the tray gives samples";

    /// <summary>Puts the readings together; of a body alone no stroke is given, however well it was measured.</summary>
    /// <param name="stations">The sensors, at least one.</param>
    /// <param name="readings">What each showed, in the same order.</param>
    /// <param name="lead">The index of the sensor that leads.</param>
    public static WindowReading Of(ReadOnlySpan<StationTraits> stations, ReadOnlySpan<StationReading> readings, int lead)
    {
        if (!stations[lead].OnTray)
        {
            return WithoutTray(readings[lead].Reading);
        }

        double stroke = 0, fundamental = 0, noise = 0, own = 0, shared = 0, hidden = 0;
        var (counted, changing, clipped, still) = (0, -1, -1, -1);
        for (var i = 0; i < stations.Length; i++)
        {
            var reading = readings[i].Reading;
            if (!stations[i].OnTray)
            {
                continue;
            }

            if (readings[i].Counts)
            {
                counted++;
                stroke += reading.StrokeMetres!.Value;
                fundamental += reading.FundamentalMetres!.Value;
                noise += reading.NoiseMetres!.Value * reading.NoiseMetres.Value;
                own += Math.Pow(stations[i].OwnUncertainty * reading.StrokeMetres.Value, 2);
                hidden += reading.HiddenCut * reading.StrokeMetres.Value;
                shared = Math.Max(shared, stations[i].SharedUncertainty);
            }

            changing = changing < 0 && reading is { Quality: WindowQuality.Transient, Motion: MotionState.Starting or MotionState.CoastingDown } ? i : changing;
            clipped = (reading.Quality == WindowQuality.Clipped || reading.MayBeClipped) && (clipped < 0 || reading.AtLeastMetres > (readings[clipped].Reading.AtLeastMetres ?? 0)) ? i : clipped;
            still = still < 0 && reading is { Quality: WindowQuality.Good, Motion: MotionState.Stopped } ? i : still;
        }

        // One sensor that stutters must not silence the others: a start or a stop is the machine's only where no sensor runs steadily.
        var chosen = counted > 0 ? lead : changing >= 0 ? changing : clipped >= 0 ? clipped : still >= 0 ? still : lead;
        var basis = readings[chosen].Reading;
        return counted == 0
            ? Others(stations, readings, basis)
            : Others(stations, readings, (basis with
            {
                StrokeMetres = stroke / counted,
                FundamentalMetres = fundamental / counted,
                NoiseMetres = Math.Sqrt(noise) / counted,
                UncertaintyMetres = 2 * Math.Sqrt((noise + own) / (counted * (double)counted) + Math.Pow(shared * stroke / counted, 2)),
                HiddenCut = 0,
                AtLeastMetres = clipped >= 0 ? readings[clipped].Reading.AtLeastMetres : null,
            }).Hiding(hidden / stroke));
    }

    private static WindowReading WithoutTray(in WindowReading body) => body with
    {
        Reason = body.Reason ?? NoTray,
        StrokeMetres = null,
        FundamentalMetres = null,
        UncertaintyMetres = null,
        AtLeastMetres = null,
        Strike = false,
        StrikeScore = null,
        StrikeCarried = false,
        StrikePossible = false,
        StrikeEvery = null,
        Levels = null,
    };

    /// <summary>Adds what is of all sensors: clipping, strike, the largest stroke, and a sensor that fails.</summary>
    private static WindowReading Others(ReadOnlySpan<StationTraits> stations, ReadOnlySpan<StationReading> readings, WindowReading tray)
    {
        var clipped = 0;
        var largest = -1;
        var failing = -1;
        var (strike, alone, possible, score, every) = (false, false, false, (double?)null, (int?)null);
        for (var i = 0; i < stations.Length; i++)
        {
            var reading = readings[i].Reading;
            clipped += reading.ClippedSamples;
            failing = failing < 0 && Fails(stations[i], readings[i], tray) ? i : failing;
            if (stations[i].OnTray && readings[i].Counts)
            {
                largest = largest < 0 || reading.StrokeMetres > readings[largest].Reading.StrokeMetres ? i : largest;
                strike |= reading.Strike;
                alone |= reading.Strike && !reading.StrikeCarried;
                possible |= reading.StrikePossible;
                every = reading.Strike && !(reading.StrikeScore <= score) ? reading.StrikeEvery : every;
                score = reading.StrikeScore > (score ?? double.MinValue) ? reading.StrikeScore : score;
            }
        }

        var counts = tray is { Quality: WindowQuality.Good, StrokeMetres: not null };
        return tray with
        {
            ClippedSamples = clipped,
            Strike = counts && strike,
            StrikeScore = counts ? score : null,
            StrikeCarried = counts && strike && !alone,
            StrikePossible = counts && possible && !strike,
            StrikeEvery = counts ? every : null,
            LargestMetres = counts ? readings[largest].Reading.StrokeMetres : null,
            LargestPlace = counts ? stations[largest].Place : null,
            FailingPlace = failing >= 0 ? stations[failing].Place : null,
        };
    }

    /// <summary>A sensor fails where it shows nothing that can be used while the tray's reading stands; one at its rail is told apart.</summary>
    private static bool Fails(in StationTraits station, in StationReading own, in WindowReading tray) => tray.Quality == WindowQuality.Good && own.Reading.ClippedSamples == 0
        && (own.Reading.Motion == MotionState.Unknown
            || (tray.StrokeMetres is not null && (station.OnTray ? !own.Counts : own.Reading.Quality == WindowQuality.Transient)));
}
