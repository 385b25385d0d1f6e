using StrokeWatch.Configuration.Toml;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Samples.Quantities;

namespace StrokeWatch.Configuration;

/// <summary>The table [stroke] of a feeder file: the band and the over-stroke limit.</summary>
internal static class StrokePart
{
    /// <summary>How far above the band the limit lies where nothing says it: 0.005 in; common practice, no source.</summary>
    public static readonly Length DefaultMargin = Length.FromInches(0.005);

    private static readonly Length Least = Length.FromMillimetres(0.001);
    private static readonly Length Most = Length.FromMillimetres(50);

    /// <summary>Reads one bound: 0.001 to 50 mm.</summary>
    public static Length? Bound(TableReader table, string key) => table.Length(key, Least, Most);

    /// <summary>Reads the band; what the file leaves out is taken from the model, which messages call by the lender's name.</summary>
    public static StrokeBand? Read(TableReader root, ModelRow? model, ConfigurationErrors errors, string lender = "the model")
    {
        var table = root.Table("stroke");
        if (table is null)
        {
            if (model is null && !root.Has("stroke") && !root.Has("model"))
            {
                errors.Add(0, "[stroke] is missing; a table [stroke] with low and high, or a model, was expected");
            }

            return Band(model?.Low, model?.High, model?.Limit);
        }

        var low = Bound(table, "low");
        var high = Bound(table, "high");
        var limit = Bound(table, "limit");
        if (model?.Low is null && !root.Has("model"))
        {
            table.Require("low", "a length such as \"1.65 mm\"");
        }

        if (model?.High is null && !root.Has("model"))
        {
            table.Require("high", "a length such as \"1.78 mm\"");
        }

        table.Finish();
        low ??= table.Has("low") ? null : model?.Low;
        high ??= table.Has("high") ? null : model?.High;
        limit ??= table.Has("limit") ? null : model?.Limit;
        CheckOrder(table, low, high, limit, lender);
        return Band(low, high, limit);
    }

    /// <summary>Refuses bounds that do not rise: low below high, high below limit.</summary>
    public static void CheckOrder(TableReader table, Length? low, Length? high, Length? limit, string lender = "the model")
    {
        if (low is { } bottom && high is { } top && bottom.CompareTo(top) >= 0)
        {
            table.Refuse(table.Has("high") ? "high" : "low", $"`high` {top} is not above `low` {bottom}; low < high was expected");
        }

        if (high is { } band && limit is { } most && band.CompareTo(most) >= 0)
        {
            var given = table.Has("limit") ? "" : $" of {lender}";
            table.Refuse(
                table.Has("limit") ? "limit" : "high",
                $"`limit`{given} {most} is not above `high` {band}; high < limit was expected, usually by 0.005 in");
        }
    }

    private static StrokeBand? Band(Length? low, Length? high, Length? limit) => low is { } bottom && high is { } top
        ? new(bottom, top, limit ?? Length.FromMetres(top.Metres + DefaultMargin.Metres))
        : null;
}
