using StrokeWatch.Outputs.Forwarding;

namespace StrokeWatch.Page;

/// <summary>An output that forwards the store.</summary>
/// <param name="Name">Its name in one word, which never changes.</param>
/// <param name="Health">Gives how it stands; any thread may ask.</param>
internal sealed record PageOutput(string Name, Func<ForwardingHealth> Health);
