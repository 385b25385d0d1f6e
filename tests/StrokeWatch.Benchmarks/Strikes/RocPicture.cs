using System.Globalization;
using System.Text;

namespace StrokeWatch.Benchmarks.Strikes;

/// <summary>The share of strikes called against the share of other windows called, as the threshold moves, one curve a rate and strength; both axes show how few are wrong, by decades.</summary>
internal static class RocPicture
{
    private const double Left = 70, Top = 50, Wide = 560, High = 380, LeastFalse = 1e-5, LeastMissed = 1e-4;
    private static readonly string[] Colours = ["#b3541e", "#7a3b8f", "#1f6f8b", "#2d7d46"];

    public static void Write(string path, Dictionary<(StudyKind Kind, int Rate, int Hertz), StudyTally> tallies, string title)
    {
        var svg = new StringBuilder();
        Add(svg, $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 860 500\" font-family=\"sans-serif\" font-size=\"13\"><rect width=\"860\" height=\"500\" fill=\"#fff\"/>");
        Add(svg, $"<text x=\"{Left}\" y=\"28\" font-size=\"16\">Strikes called against false calls, by sampling rate ({title})</text>");
        for (var decade = -5; decade <= 0; decade++)
        {
            Add(svg, $"<path d=\"M{X(Math.Pow(10, decade)):0.#} {Top}V{Top + High}\" stroke=\"#ddd\"/><text x=\"{X(Math.Pow(10, decade)):0.#}\" y=\"{Top + High + 18}\" text-anchor=\"middle\">{Math.Pow(10, decade + 2):0.###} %</text>");
        }

        for (var decade = -4; decade <= 0; decade++)
        {
            var missed = Math.Pow(10, decade);
            Add(svg, $"<path d=\"M{Left} {Y(1 - missed):0.#}h{Wide}\" stroke=\"#ddd\"/><text x=\"{Left - 8}\" y=\"{Y(1 - missed) + 4:0.#}\" text-anchor=\"end\">{100 * (1 - missed):0.##} %</text>");
        }

        // What is wanted lies to the left of this line and above these.
        Add(svg, $"<path d=\"M{X(StrikeStudy.FalseCalls):0.#} {Top}V{Top + High}\" stroke=\"#555\" stroke-dasharray=\"1 3\"/><text x=\"{X(StrikeStudy.FalseCalls) + 4:0.#}\" y=\"{Top + High - 6}\" fill=\"#555\">1 in {1 / StrikeStudy.FalseCalls:0}</text>");
        foreach (var (wanted, words) in new[] { (StrikeStudy.Detected, "30 % and more: wanted"), (StrikeStudy.DetectedFaint, "15 to 30 %: wanted") })
        {
            Add(svg, $"<path d=\"M{Left} {Y(wanted):0.#}h{Wide}\" stroke=\"#555\" stroke-dasharray=\"1 3\"/><text x=\"{Left + Wide - 4}\" y=\"{Y(wanted) + 14:0.#}\" text-anchor=\"end\" fill=\"#555\">{words}</text>");
        }

        Add(svg, $"<text x=\"{Left + (Wide / 2)}\" y=\"{Top + High + 42}\" text-anchor=\"middle\">windows without strike that are called (left edge: {LeastFalse * 100:0.###} % or none; top: {100 * (1 - LeastMissed):0.##} % or all)</text>");
        var rates = tallies.Keys.Select(key => key.Rate).Distinct().Order().ToList();
        for (var i = 0; i < rates.Count; i++)
        {
            var rate = rates[i];
            var quiet = Scores(tallies, rate, kind => kind > StudyKind.FaintContact);
            Curve(svg, quiet, Scores(tallies, rate, kind => kind < StudyKind.Faint), Colours[i % Colours.Length], "");
            Curve(svg, quiet, Scores(tallies, rate, kind => kind is >= StudyKind.Faint and <= StudyKind.FaintContact), Colours[i % Colours.Length], " stroke-dasharray=\"6 4\"");
            Add(svg, $"<path d=\"M650 {80 + (44 * i)}h30\" stroke=\"{Colours[i % Colours.Length]}\" stroke-width=\"2\"/><text x=\"688\" y=\"{84 + (44 * i)}\">{rate / 1000.0:0.0} kHz, 30 % and more</text>");
            Add(svg, $"<path d=\"M650 {100 + (44 * i)}h30\" stroke=\"{Colours[i % Colours.Length]}\" stroke-width=\"2\" stroke-dasharray=\"6 4\"/><text x=\"688\" y=\"{104 + (44 * i)}\">{rate / 1000.0:0.0} kHz, 15 to 30 %</text>");
        }

        Add(svg, $"<text x=\"650\" y=\"{Top + High}\">Dots: the threshold used</text></svg>");
        File.WriteAllText(path, svg.ToString());
    }

    private static List<double> Scores(Dictionary<(StudyKind Kind, int Rate, int Hertz), StudyTally> tallies, int rate, Func<StudyKind, bool> which) =>
        [.. tallies.Where(pair => pair.Key.Rate == rate && which(pair.Key.Kind)).SelectMany(pair => pair.Value.Scores).Select(score => double.IsNaN(score) ? -1 : score).OrderDescending()];

    private static void Curve(StringBuilder svg, List<double> quiet, List<double> loud, string colour, string dash)
    {
        var points = new StringBuilder();
        for (var step = 0; step <= 400; step++)
        {
            var threshold = 6 * Math.Pow(1 - (step / 400.0), 2);
            Add(points, $"{X(Share(quiet, threshold)):0.#},{Y(Share(loud, threshold)):0.#} ");
        }

        Add(svg, $"<polyline fill=\"none\" stroke=\"{colour}\" stroke-width=\"2\"{dash} points=\"{points}\"/><circle cx=\"{X(Share(quiet, 1)):0.#}\" cy=\"{Y(Share(loud, 1)):0.#}\" r=\"4\" fill=\"{colour}\"/>");
    }

    private static double Share(List<double> descending, double threshold) => descending.Count == 0 ? 0 : (double)descending.Count(score => score >= threshold) / descending.Count;

    private static double X(double share) => Left + (Wide * (1 - (Math.Log10(Math.Max(LeastFalse, share)) / Math.Log10(LeastFalse))));

    private static double Y(double share) => Top + (High * (1 - (Math.Log10(Math.Max(LeastMissed, 1 - share)) / Math.Log10(LeastMissed))));

    private static void Add(StringBuilder text, FormattableString part) => text.Append(part.ToString(CultureInfo.InvariantCulture));
}
