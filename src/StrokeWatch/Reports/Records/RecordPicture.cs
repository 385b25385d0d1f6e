using StrokeWatch.Reports.Html;

namespace StrokeWatch.Reports.Records;

/// <summary>A drawing with its caption.</summary>
/// <param name="Draw">Draws it, in a width of <see cref="Width"/> units.</param>
/// <param name="Caption">What it shows.</param>
internal sealed record RecordPicture(Action<IDrawingSurface> Draw, string Caption) : RecordBlock
{
    /// <summary>The width of every drawing in units, such that its figures stay readable on paper.</summary>
    public const double Width = 700;
}
