namespace StrokeWatch.Tests.Configuration;

/// <summary>Feeder files that several tests read.</summary>
internal static class Examples
{
    /// <summary>The example of the feeder file that the project's contract gives, word for word.</summary>
    public const string Contract = """
        name  = "Bin 4 dosing feeder"
        model = "medium"                    # a row of the models file; values given here win over it

        [drive]
        supply_hz = 60                      # mains frequency
        strokes_per_cycle = 1               # 1: half-wave or magnet-biased (stroke at mains frequency); 2: full-wave (twice)
        frequency = "supply"                # "supply": locked to the mains, which also corrects the sensor's own clock;
                                            # "free": variable-frequency drive, measured with the sensor's clock
        [stroke]                            # peak to peak, along the line of action, empty tray, full voltage
        low   = "1.65 mm"
        high  = "1.78 mm"
        limit = "1.90 mm"                   # over-stroke limit

        [mounting]
        line_angle_deg = "auto"             # or a number: line of action above the tray's x axis, in the x-z plane

        [springs]                           # leaves clamped at both ends, working in parallel
        modulus_gpa = 205.0
        length_mm = 120.0                   # free length between clamps
        width_mm = 75.0
        front = [ { thickness_mm = 4.0, count = 4 } ]   # set when the feeder was built: never changed by advice
        rear  = [ { thickness_mm = 4.0, count = 5 } ]
        stock_mm = [3.0, 4.0, 5.0]          # leaf thicknesses at hand
        max_rear_leaves = 10
        endurance_stress_mpa = 300.0

        [masses]
        tray_kg = 35.0                      # tray with armature
        body_kg = 70.0

        [air_gap]
        rest_mm = 2.2                       # armature to core, at rest
        """;

    /// <summary>The least that a feeder file needs.</summary>
    public const string Least = """
        [drive]
        supply_hz = 50
        strokes_per_cycle = 1
        [stroke]
        low = "1.5 mm"
        high = "1.6 mm"
        """;
}
