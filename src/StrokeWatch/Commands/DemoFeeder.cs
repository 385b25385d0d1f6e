namespace StrokeWatch.Commands;

/// <summary>The feeder file of the demonstration, as it is left beside the capture.</summary>
internal static class DemoFeeder
{
    /// <summary>The file's text.</summary>
    public const string Toml =
        """
        # The demonstration's feeder: a half-wave feeder for glass cullet, 50 Hz.
        name = "Cullet feeder"

        [drive]
        supply_hz = 50
        strokes_per_cycle = 1
        frequency = "supply"

        [stroke]                            # peak to peak, along the line of action
        low   = "1.65 mm"
        high  = "1.78 mm"
        limit = "1.90 mm"

        [masses]
        tray_kg = 35.0
        body_kg = 70.0

        [sensor]
        full_scale_g = 32
        sensitivity_tolerance_percent = 1.0 # by the simulated sensor's datasheet
        """;

    /// <summary>What the demonstration's feeder file has beside it: its sensor takes the supply's voltage too.</summary>
    public const string Supply =
        """


        [supply]
        full_voltage_v = 230                # the band holds at it
        """;
}
