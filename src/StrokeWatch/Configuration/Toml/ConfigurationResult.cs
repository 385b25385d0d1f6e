namespace StrokeWatch.Configuration.Toml;

/// <summary>A configuration, or all that is wrong with it.</summary>
/// <param name="Value">The configuration; null where there is any error.</param>
/// <param name="Errors">All errors, in the order of files and lines.</param>
internal sealed record ConfigurationResult<T>(T? Value, IReadOnlyList<ConfigurationError> Errors)
    where T : class;
