namespace StrokeWatch.Sensors.Simulated.Faults;

/// <summary>A kind of fault: a physical change of the machine, its supply, its surroundings or its sensor; never of measured numbers.</summary>
internal interface IFaultKind
{
    /// <summary>Gets its name in the trade's words, kebab-case, which never changes.</summary>
    string Name { get; }

    /// <summary>Gets what a severity of 0 to 1 means, in a sentence.</summary>
    string Meaning { get; }

    /// <summary>Gets whether the feeder was commissioned with it, so that its magnet was set for the stroke with the fault in it.</summary>
    bool FromCommissioning => false;

    /// <summary>Gives the scenario with the fault in it.</summary>
    FeederScenario Apply(FeederScenario scenario, double severity);
}
