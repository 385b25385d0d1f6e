namespace StrokeWatch.Assessment.Diagnosis;

/// <summary>What a cause does to a symptom.</summary>
public enum Change
{
    /// <summary>It leaves the symptom as it was.</summary>
    Same,

    /// <summary>It raises it.</summary>
    Rises,

    /// <summary>It lowers it.</summary>
    Falls,

    /// <summary>It moves it one way or the other.</summary>
    Moves,

    /// <summary>It may raise it.</summary>
    MayRise,

    /// <summary>It may lower it.</summary>
    MayFall,

    /// <summary>It may move it one way or the other.</summary>
    MayMove,

    /// <summary>Whatever the symptom says, it says nothing of this cause.</summary>
    Any,
}
