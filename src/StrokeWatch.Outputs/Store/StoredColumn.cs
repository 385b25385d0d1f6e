namespace StrokeWatch.Outputs.Store;

/// <summary>All windows that count within a short stretch of time, as one point of a plot.</summary>
/// <param name="Index">The stretch's number, from 0.</param>
/// <param name="LeastMetres">The smallest stroke in metres.</param>
/// <param name="MostMetres">The largest stroke in metres.</param>
/// <param name="Windows">How many windows.</param>
public readonly record struct StoredColumn(int Index, double LeastMetres, double MostMetres, long Windows);
