using System.Globalization;

namespace StrokeWatch.Benchmarks;

/// <summary>Figures beside their targets, and whether one was missed.</summary>
internal sealed class Targets
{
    private bool missed;

    /// <summary>Gets the exit status: 1 where a target was missed.</summary>
    public int Status => missed ? 1 : 0;

    public void AtLeast(string name, double figure, double target, string unit) => Say(name, figure, "at least", target, unit, figure >= target);

    public void Below(string name, double figure, double target, string unit) => Say(name, figure, "below", target, unit, figure < target);

    private void Say(string name, double figure, string side, double target, string unit, bool met)
    {
        missed |= !met;
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"{name}: {Four(figure)} {unit}, target {side} {Four(target)} {unit}: {(met ? "met" : "MISSED")}"));
    }

    private static string Four(double figure) => Math.Abs(figure) >= 1000 ? figure.ToString("0", CultureInfo.InvariantCulture) : figure.ToString("0.###", CultureInfo.InvariantCulture);
}
