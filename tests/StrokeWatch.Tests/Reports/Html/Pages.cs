using System.Globalization;
using System.Xml.Linq;
using StrokeWatch.Assessment.Alarms;
using StrokeWatch.Configuration;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Pipeline;
using StrokeWatch.Reports.Html;
using StrokeWatch.Samples.Captures;

namespace StrokeWatch.Tests.Reports.Html;

/// <summary>Pages of simulated captures, and what can be read back from them.</summary>
internal static class Pages
{
    public static string SimData { get; } = Path.Combine(Root(), "sim-data");

    public static string CaptureOf(string name) => Path.Combine(SimData, File.Exists(Path.Combine(SimData, $"{name}.wav")) ? $"{name}.wav" : $"{name}.csv");

    public static FeederDescription FeederOf(string name) => FeederFile.Read(Path.Combine(SimData, $"{name}.feeder.toml")).Value!;

    public static ReplayResult Replay(string name, Func<FeederDescription, FeederDescription>? change = null)
    {
        using var source = CaptureFile.Open(CaptureOf(name), SensorChannels.Wanted(FeederOf(name)));
        return Replayer.Run($"{name}", source, (change ?? (feeder => feeder))(FeederOf(name)), new AlarmDelays());
    }

    public static ReportedCapture Reported(string name, Func<FeederDescription, FeederDescription>? change = null)
    {
        var result = Replay(name, change);
        var window = PortraitTaker.Choose(result.Report);
        using var source = CaptureFile.Open(CaptureOf(name), SensorChannels.Wanted(FeederOf(name)));
        return new(result, window, window is { } chosen ? PortraitTaker.Take(source, result, chosen) : null, true);
    }

    public static XElement Parse(string page) => XDocument.Parse(page).Root!;

    public static IEnumerable<XElement> Drawings(XElement page, string says) =>
        page.Descendants("svg").Where(svg => svg.Attribute("aria-label")?.Value.StartsWith(says, StringComparison.Ordinal) == true);

    public static bool Looks(XElement element, string look) => element.Attribute("class")?.Value.Split(' ').Contains(look) == true;

    public static double Number(string text) => double.Parse(text.Replace('\u2212', '-'), CultureInfo.InvariantCulture);

    public static double Attribute(XElement element, string name) => Number(element.Attribute(name)!.Value);

    /// <summary>Gives a value's reading off an axis from the places and numbers of its ticks: texts with one anchor on one side of the drawing.</summary>
    public static Func<double, double> ReadOff(XElement drawing, string anchor, bool upright)
    {
        var ticks = drawing.Elements("text").Where(text => Looks(text, "number") && text.Attribute("text-anchor")!.Value == anchor)
            .Select(text => (Place: Attribute(text, upright ? "y" : "x") - (upright ? 4 : 0), Value: Number(text.Value))).ToList();
        var (first, last) = (ticks[0], ticks[^1]);
        return place => first.Value + (place - first.Place) * (last.Value - first.Value) / (last.Place - first.Place);
    }

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "StrokeWatch.sln")))
        {
            folder = folder.Parent!;
        }

        return folder.FullName;
    }
}
