namespace StrokeWatch.Benchmarks.Strikes.Training;

/// <summary>What one window of a seeded run shows about either end of the path.</summary>
internal readonly record struct BlowRow(StudyKind Kind, int Rate, float[] End, float[] OtherEnd);
