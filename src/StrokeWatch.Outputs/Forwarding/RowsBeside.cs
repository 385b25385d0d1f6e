namespace StrokeWatch.Outputs.Forwarding;

/// <summary>A second table of the store that holds at most one row for each row of the first, read along with it.</summary>
/// <param name="Table">Its name; a file of an earlier version need not have it.</param>
/// <param name="Key">The column that holds the first table's number.</param>
/// <param name="Prefix">What its columns' names begin with in the rows that are given.</param>
/// <param name="Columns">Its columns that are read.</param>
internal sealed record RowsBeside(string Table, string Key, string Prefix, params string[] Columns)
{
    /// <summary>The supply's voltage beside a window.</summary>
    public static readonly RowsBeside Supply = new("window_supply", "window_id", "supply_", "rms_v", "mains_v", "fundamental_v", "phase_deg", "conduction_share", "firing_deg");
}
