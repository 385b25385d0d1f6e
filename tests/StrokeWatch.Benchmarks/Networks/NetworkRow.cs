namespace StrokeWatch.Benchmarks.Networks;

/// <summary>What a network is trained on: numbers, whether they show what it is to tell, and how much the row weighs.</summary>
internal readonly record struct NetworkRow(float[] Numbers, bool Label, float Weight);
