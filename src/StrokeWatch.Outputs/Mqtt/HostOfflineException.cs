namespace StrokeWatch.Outputs.Mqtt;

/// <summary>The host that is waited for has said that it is offline.</summary>
internal sealed class HostOfflineException() : Exception("The primary host is offline.");
