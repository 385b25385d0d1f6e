using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Samples.Captures;

/// <summary>One column (or channel) that the user chose, and what for.</summary>
/// <param name="Role">What the column is; unsaid where only the column was named.</param>
/// <param name="Number">Its number from 1; null where it was named.</param>
/// <param name="Name">Its name in the header; null where it was numbered. A time column with neither means: there is none.</param>
public sealed record ColumnChoice(ColumnRole Role, int? Number, string? Name)
{
    /// <summary>Gets the place of the sensor whose column it is; null where the capture has one sensor, or for time.</summary>
    public SensorPlace? Place { get; init; }

    /// <summary>Gets whether this says that no column is time.</summary>
    public bool IsNoTime => Role == ColumnRole.Time && Number is null && Name is null;

    /// <summary>Writes the choice as it is given on the command line.</summary>
    public override string ToString()
    {
        var column = Number is { } number ? number.ToString(System.Globalization.CultureInfo.InvariantCulture) : Name ?? "none";
        var axis = Role switch { ColumnRole.Unsaid => "", ColumnRole.Time => "t", _ => Role.ToString().ToLowerInvariant() };
        var whose = Place is { } place ? SensorPlaces.Name(place) + (axis.Length > 0 ? "." : "") : "";
        return axis.Length + whose.Length == 0 ? column : $"{whose}{axis}={column}";
    }
}
