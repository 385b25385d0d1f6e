using System.Globalization;
using StrokeWatch.Machine.Dynamics;
using StrokeWatch.Session;

namespace StrokeWatch.Tests.Commands;

/// <summary>
/// A feeder whose leaves give 80 % of their formula's stiffness (joints), run in time by the simulator: for each rear stack its scenario, with a stop in it. The force stays the same
/// from stack to stack, so that the stroke is that of two masses on a spring (Harris, Shock and Vibration Handbook, ch. 2).
/// </summary>
internal static class TunedMachine
{
    public const string Feeder = """
        name = "Cullet feeder"
        [drive]
        supply_hz = 60
        strokes_per_cycle = 1
        [stroke]
        low = "1.65 mm"
        high = "1.78 mm"
        limit = "1.90 mm"
        [mounting]
        line_angle_deg = 20
        [springs]
        modulus_gpa = 205.0
        length_mm = 120.0
        width_mm = 75.0
        front = [ { thickness_mm = 4.0, count = 4 } ]
        rear  = [ { thickness_mm = 4.0, count = 5 } ]
        stock_mm = [3.0, 4.0, 5.0]
        max_rear_leaves = 10
        [masses]
        tray_kg = 35.0
        body_kg = 70.0
        """;

    public const double FirstMillimetres = 1.50;

    private const double Joints = 0.8, DriveHz = 60, Tray = 35, Body = 70, Damping = 0.02;

    /// <summary>Gives the sum of a stack's cubed thicknesses and that of the front's, times E b / L³, in N/m.</summary>
    public static double Stiffness(string rear) =>
        Joints * 205e9 * 0.075 / Math.Pow(0.120, 3) * (4 * Math.Pow(4e-3, 3) + StackText.Read(rear, out _)!.Sum(layer => layer.Count * Math.Pow(layer.ThicknessMetres, 3)));

    /// <summary>Gives the stroke in mm with a rear stack, 1.50 mm with 5x4.0.</summary>
    public static double Stroke(string rear) => FirstMillimetres * Amplitude(rear) / Amplitude("5x4.0");

    /// <summary>Gives the scenario of a capture: steady running, then a stop.</summary>
    public static string Scenario(string rear, double? stroke = null, string more = "") => string.Create(CultureInfo.InvariantCulture, $"""
        [run]
        seed = 5
        duration_s = 5
        rate_hz = 3200
        [machine]
        natural_frequency_hz = {TwoMass.NaturalFrequencyHz(Stiffness(rear), Tray, Body)}
        damping_ratio = {Damping}
        stroke = "{stroke ?? Stroke(rear):0.0000} mm"
        line_angle_deg = 20
        [[on]]
        from_s = 0
        to_s = 3.5
        {more}
        [feeder]
        name = "Cullet feeder"
        [feeder.drive]
        supply_hz = 60
        strokes_per_cycle = 1
        """);

    private static double Amplitude(string rear) => TwoMass.TrayAmplitude(1, DriveHz, Stiffness(rear), Damping, Tray, Body);
}
