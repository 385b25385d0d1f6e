using StrokeWatch.Measurement.Stations;
using StrokeWatch.Measurement.Windows;

namespace StrokeWatch.Assessment.Reports;

/// <summary>What is kept of one sensor's window until a capture is summed up; NaN stands for what was not measured, to keep a long capture small.</summary>
internal readonly record struct KeptReading(
    double Stroke, double Noise, double Phase, double PhaseNoise, double Part, double LineAngle, double EllipseRatio, WindowQuality Quality, MotionState Motion, string? Reason)
{
    public bool OtherClock { get; init; }

    public float HiddenCut { get; init; }

    public bool Counts => !double.IsNaN(Stroke);

    public static KeptReading Of(in StationReading station)
    {
        var reading = station.Reading;
        double If(double? value) => value ?? double.NaN;
        return new(
            station.Counts ? If(reading.StrokeMetres) : double.NaN,
            If(reading.NoiseMetres),
            If(station.PhaseRadians),
            If(station.PhaseNoiseRadians),
            If(station.RelativePartMetres),
            If(reading.LineAngleDegrees),
            If(reading.EllipseRatio),
            reading.Quality,
            reading.Motion,
            reading.Reason)
        {
            OtherClock = station.OtherClock,
            HiddenCut = (float)reading.HiddenCut,
        };
    }
}
