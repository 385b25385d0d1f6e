using StrokeWatch.Outputs.Book;

namespace StrokeWatch.Session;

/// <summary>What a session needs of the world: the clock, what measures, and what makes the baseline.</summary>
internal sealed record SessionTools
{
    /// <summary>Gets the clock.</summary>
    public required TimeProvider Time { get; init; }

    /// <summary>Gets the captures that were named, in order.</summary>
    public IReadOnlyList<string> Captures { get; init; } = [];

    /// <summary>Gives the name by which a capture is kept.</summary>
    public Func<string, string> Name { get; init; } = file => file;

    /// <summary>Gets whether there is a live sensor.</summary>
    public bool Live { get; init; }

    /// <summary>Gets whether it is answered on the page.</summary>
    public bool AtPage { get; init; }

    /// <summary>Gets how long a live measurement takes, in seconds.</summary>
    public double Seconds { get; init; } = 20;

    /// <summary>Gets what measures: the reading, or why there is none.</summary>
    public required Func<MeasurementWish, (SessionReading? Reading, string? Trouble)> Measure { get; init; }

    /// <summary>Gets what makes a baseline of a trial: its version and what to say, or why there is none.</summary>
    public required Func<BookTrial, (int? Version, IReadOnlyList<string> Said, string? Trouble)> Learn { get; init; }
}
