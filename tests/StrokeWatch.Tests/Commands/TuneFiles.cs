using System.Globalization;
using StrokeWatch.Commands;

namespace StrokeWatch.Tests.Commands;

/// <summary>A folder with the contract's feeder and trials, and the program run on them.</summary>
internal sealed class TuneFiles : IDisposable
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
        endurance_stress_mpa = 300.0
        [masses]
        tray_kg = 35.0
        body_kg = 70.0
        [air_gap]
        rest_mm = 2.2
        """;

    public const string Trial = """
        [[trial]]
        rear = [ { thickness_mm = 4.0, count = 5 } ]
        stroke = "1.50 mm"
        natural_frequency_hz = 66.1
        """;

    private readonly string folder = Directory.CreateTempSubdirectory("strokewatch-").FullName;

    public void Dispose() => Directory.Delete(folder, true);

    public string At(string name) => Path.Combine(folder, name);

    public string Write(string name, string text)
    {
        File.WriteAllText(At(name), text);
        return At(name);
    }

    public (int Status, string Output, string Error) Advise(string trials, params string[] more) =>
        Run(["tune", "advise", "--feeder", Write("feeder.toml", Feeder), "--trials", Write("trials.toml", trials), .. more]);

    public static (int Status, string Output, string Error) Run(params string[] arguments)
    {
        using var raw = new MemoryStream();
        using var output = new StringWriter();
        using var error = new StringWriter();
        var status = CommandLine.Run(arguments, new() { Output = output, Error = error, RawOutput = raw, Time = TimeProvider.System });
        return (status, output + System.Text.Encoding.UTF8.GetString(raw.ToArray()), error.ToString());
    }

    /// <summary>Runs under a culture that writes 1,5 for one and a half.</summary>
    public static T WithDecimalComma<T>(Func<T> run)
    {
        var before = CultureInfo.CurrentCulture;
        var comma = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        comma.NumberFormat.NumberDecimalSeparator = ",";
        comma.NumberFormat.NumberGroupSeparator = ".";
        CultureInfo.CurrentCulture = comma;
        try
        {
            return run();
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }
}
