namespace StrokeWatch.Assessment.Alarms;

/// <summary>Something that happens to an alarm.</summary>
/// <param name="Act">What.</param>
/// <param name="At">When, in UTC.</param>
/// <param name="By">The person, or what of the program: never empty.</param>
/// <param name="Words">What is said of it; empty where nothing is.</param>
/// <param name="Until">When a shelf ends, in UTC; with its end, that instant too where a clock that nobody sets has lived it; null for all other acts.</param>
public readonly record struct AlarmInput(AlarmAct Act, DateTimeOffset At, string By, string Words = "", DateTimeOffset? Until = null);
