using MathNet.Numerics;

namespace StrokeWatch.Assessment.Reports;

/// <summary>Whether more windows of a capture are called than false alarms explain, where no two follow each other.</summary>
internal static class StrikeCount
{
    /// <summary>The false-alarm probability of a window.</summary>
    private const double FalseAlarm = 5e-5;

    /// <summary>The probability at which chance is ruled out for a capture.</summary>
    private const double Chance = 1e-6;

    /// <summary>Says whether so many called windows of so many judged ones are less likely than <see cref="Chance"/> (Poisson's distribution; windows taken as independent).</summary>
    public static bool BeyondChance(int called, int judged) =>
        called > 1 && SpecialFunctions.GammaLowerRegularized(called, judged * FalseAlarm) < Chance;
}
