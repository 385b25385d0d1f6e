namespace StrokeWatch.Benchmarks.Strikes.Training;

/// <summary>What one window of a seeded run shows about either end of the path, and the orders of what has changed in it.</summary>
internal readonly record struct BlowRow(StudyKind Kind, int Rate, float[] End, float[] OtherEnd, float[] Orders);
