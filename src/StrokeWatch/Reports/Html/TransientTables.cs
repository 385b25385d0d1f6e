using StrokeWatch.Measurement.CoastDown;
using StrokeWatch.Pipeline;

namespace StrokeWatch.Reports.Html;

/// <summary>The tables of stops and starts.</summary>
internal static class TransientTables
{
    /// <summary>Writes the coast-downs.</summary>
    public static void Decays(Markup page, ReplayResult result)
    {
        if (result.Report.Decays.Count == 0)
        {
            page.Leaf("p", ReportWords.NoDecays);
            return;
        }

        var table = new PageTable(page, ReportWords.DecayColumns);
        foreach (var decay in result.Report.Decays)
        {
            Row(table, decay.StartSeconds, decay);
        }

        table.End();
    }

    /// <summary>Writes the starts; those that told nothing with their reason.</summary>
    public static void Starts(Markup page, ReplayResult result)
    {
        var starts = result.Report.Starts;
        if (starts.Count == 0)
        {
            page.Leaf("p", ReportWords.NoStarts);
            return;
        }

        if (starts.Any(start => start.Decay is not null))
        {
            var table = new PageTable(page, ReportWords.DecayColumns);
            foreach (var start in starts.Where(start => start.Decay is not null))
            {
                Row(table, start.StartSeconds, start.Decay!.Value);
            }

            table.End();
        }

        foreach (var start in starts.Where(start => start.Decay is null))
        {
            page.Leaf("p", $"{Figure.Of(start.StartSeconds, 2)} s: {TransientWords.Of(start)}");
        }
    }

    private static void Row(PageTable table, double seconds, in DecayReading decay) => table.Row(
        $"{Figure.Of(seconds, 2)} s", Figure.Of(decay.NaturalFrequencyHz, 3), $"± {Figure.Of(decay.FrequencyUncertaintyHz, 3)}",
        Figure.Of(decay.DampingRatio, 4), $"± {Figure.Of(decay.DampingUncertainty, 4)}", Figure.Of(decay.TuningRatio, 3), TransientWords.Side(decay.Side));
}
