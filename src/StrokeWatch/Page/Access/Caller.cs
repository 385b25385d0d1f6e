namespace StrokeWatch.Page.Access;

/// <summary>Who asks.</summary>
/// <param name="User">The user.</param>
/// <param name="Browser">Whether a browser's session says so, rather than a program's token.</param>
internal sealed record Caller(PageUser User, bool Browser);
