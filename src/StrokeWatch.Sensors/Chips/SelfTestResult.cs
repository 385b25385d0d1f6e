using System.Globalization;

namespace StrokeWatch.Sensors.Chips;

/// <summary>What a chip showed at its start.</summary>
/// <param name="Verdict">Whether the self-test passed.</param>
/// <param name="DeltaG">How far each axis moved under the self-test's force, in g.</param>
/// <param name="GravityG">The size of the mean acceleration, in g: 1 where all is well, whether the tray moves or not.</param>
/// <param name="SpreadG">The standard deviation of each axis in g, without the force.</param>
public sealed record SelfTestResult(SelfTestVerdict Verdict, IReadOnlyList<double> DeltaG, double GravityG, IReadOnlyList<double> SpreadG)
{
    /// <summary>Gets whether the mean acceleration is that of gravity, within a half: a chip of another scale with the same identity is not.</summary>
    public bool GravityPlausible => GravityG is > 0.5 and < 1.5;

    /// <summary>Gets the result in words.</summary>
    public string Words => string.Create(
        CultureInfo.InvariantCulture,
        $"self-test moved x, y, z by {DeltaG[0]:0.00}, {DeltaG[1]:0.00}, {DeltaG[2]:0.00} g: {Verdict switch
        {
            SelfTestVerdict.Passed => "passed",
            SelfTestVerdict.OutOfLimits => "outside its limits",
            SelfTestVerdict.Dead => "an axis does not move",
            _ => "not judged, the tray moves too much; stop the feeder and check again",
        }}");
}
