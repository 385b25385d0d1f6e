using System.Text.Json;
using Microsoft.AspNetCore.Http;
using StrokeWatch.Assessment.Findings;
using StrokeWatch.Assessment.Reports;
using StrokeWatch.Assessment.Watching;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Pipeline;
using StrokeWatch.Samples.Captures;
using StrokeWatch.Samples.Sources;

namespace StrokeWatch.Page.Findings;

/// <summary>Answers with what is found and what to check first: by the rules over the newest windows, and over weeks.</summary>
/// <param name="feeder">The feeder.</param>
/// <param name="source">Gives what the first device says of itself.</param>
/// <param name="recent">The newest windows.</param>
/// <param name="machine">Tells how the machine stands over weeks.</param>
/// <param name="time">The clock.</param>
internal sealed class FindingAnswers(FeederDescription feeder, Func<SourceInfo> source, RecentWindows recent, Func<MachineStanding?> machine, TimeProvider time)
{
    /// <summary>How many of the newest windows tell where the stroke lies now: about two seconds of them.</summary>
    private const int Newest = 4;

    private const string NothingFollowed = "nothing is followed over weeks: the configuration does not ask for it, or the store has not been read yet";

    private readonly Lock gate = new();
    private (long Count, IReadOnlyList<AssessedWindow> Windows, IReadOnlyList<Finding> Findings)? looked;

    private static readonly string[] OfStroke = ["over-stroke", "high-stroke", "low-stroke"];

    /// <summary>Answers.</summary>
    public Task Answer(HttpContext context)
    {
        if (PageQuery.Of(context).Trouble is { } trouble)
        {
            return PageJson.Refuse(context, StatusCodes.Status400BadRequest, trouble);
        }

        var (windows, findings) = Newly();
        return PageJson.Answer(context, writer =>
        {
            writer.WriteStartObject();
            PageJson.Utc(writer, "utc", time.GetUtcNow());
            writer.WriteString("lock_out", Rules.Isolate);
            writer.WriteStartObject("now");
            PageJson.Number(writer, "length_s", windows.Sum(window => window.Reading.LengthSeconds), 2);
            writer.WriteNumber("windows", windows.Count);
            writer.WriteStartArray("findings");
            foreach (var finding in findings)
            {
                writer.WriteStartObject();
                writer.WriteString("id", finding.Id);
                PageJson.Number(writer, "confidence", finding.Confidence, 3);
                Lines(writer, "because", finding.Because);
                Lines(writer, "check_first", finding.CheckFirst);
                writer.WriteEndObject();
            }

            writer.WriteEndArray();
            writer.WriteEndObject();
            Weeks(writer, machine());
            writer.WriteEndObject();
        });
    }

    /// <summary>Looks once a window, however many ask.</summary>
    private (IReadOnlyList<AssessedWindow> Windows, IReadOnlyList<Finding> Findings) Newly()
    {
        lock (gate)
        {
            if (looked is not { } known || known.Count != recent.Count)
            {
                var count = recent.Count;
                var windows = recent.Now;
                known = (count, windows, Look(windows));
                looked = known;
            }

            return (known.Windows, known.Findings);
        }
    }

    /// <summary>Applies the rules: where the stroke lies, to the last seconds; all else to all windows held.</summary>
    private IReadOnlyList<Finding> Look(IReadOnlyList<AssessedWindow> windows)
    {
        if (windows.Count == 0)
        {
            return [];
        }

        var contributions = KnownContributions.For(feeder, source());
        IReadOnlyList<Finding> Of(IEnumerable<AssessedWindow> some)
        {
            var builder = new ReportBuilder(feeder);
            foreach (var window in some)
            {
                builder.Add(window);
            }

            return Rules.Look(builder.Build(contributions));
        }

        return [.. Of(windows.TakeLast(Newest)).Where(finding => OfStroke.Contains(finding.Id)), .. Of(windows).Where(finding => !OfStroke.Contains(finding.Id))];
    }

    private static void Weeks(Utf8JsonWriter writer, MachineStanding? standing)
    {
        writer.WriteStartObject("over_weeks");
        writer.WriteString("progress", standing?.Progress ?? NothingFollowed);
        writer.WriteString("baseline_made", standing?.Baseline is { } baseline ? RecordedDate.Text(baseline.Made) : null);
        writer.WriteStartArray("findings");
        if (standing?.Finding is { } finding)
        {
            Machine(writer, finding);
        }

        writer.WriteEndArray();
        writer.WriteEndObject();
    }

    private static void Machine(Utf8JsonWriter writer, WatchFinding finding)
    {
        writer.WriteStartObject();
        writer.WriteString("id", finding.Id);
        writer.WriteString("words", finding.Words);
        PageJson.Number(writer, "confidence", finding.Confidence, 3);
        Lines(writer, "because", finding.Because);
        Lines(writer, "check_first", finding.CheckFirst);
        writer.WriteString("confirm", finding.Confirm);
        writer.WriteString("tell_apart", finding.TellApart);
        writer.WriteEndObject();
    }

    private static void Lines(Utf8JsonWriter writer, string name, IReadOnlyList<string> lines)
    {
        writer.WriteStartArray(name);
        foreach (var line in lines)
        {
            writer.WriteStringValue(line);
        }

        writer.WriteEndArray();
    }
}
