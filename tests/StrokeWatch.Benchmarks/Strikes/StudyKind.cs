namespace StrokeWatch.Benchmarks.Strikes;

/// <summary>What is simulated: strikes of three rhythms and two strengths, real contact, and everything that looks like them.</summary>
internal enum StudyKind
{
    Strike,
    StrikeEverySecond,
    StrikeEveryThird,
    StrikeContact,
    Faint,
    FaintEverySecond,
    FaintEveryThird,
    FaintContact,
    Healthy,
    PhaseCut,
    Impacts,
    Lumps,
    Neighbour,
    Rattle,
    Rub,
    Clipped,
    Spikes,
}
