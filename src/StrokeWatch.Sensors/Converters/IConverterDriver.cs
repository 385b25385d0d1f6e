namespace StrokeWatch.Sensors.Converters;

/// <summary>An analogue-to-digital converter, ready to be read; what a bus throws, it throws.</summary>
internal interface IConverterDriver : IDisposable
{
    /// <summary>Sets the converter up; gives what is wrong with what it says, or null.</summary>
    string? Start();

    /// <summary>Gives the newest conversion in volts at the converter's input; null where it stands at an end of its range.</summary>
    double? Read();

    /// <summary>Gives why nothing that was read since the last call is to be believed, or null.</summary>
    string? Doubt();
}
