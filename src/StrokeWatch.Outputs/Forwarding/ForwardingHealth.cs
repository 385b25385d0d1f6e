namespace StrokeWatch.Outputs.Forwarding;

/// <summary>How an output that forwards the store stands at one instant.</summary>
/// <param name="Sent">Rows confirmed by the server since the start.</param>
/// <param name="Held">Rows of the store that are not forwarded yet.</param>
/// <param name="Refused">Rows that the server would not have since the start; they are set aside.</param>
/// <param name="Gone">Rows that the store deleted by age before they could be forwarded, since the start.</param>
/// <param name="LastSuccess">When the server last confirmed anything, in UTC; null before the first time.</param>
/// <param name="Trouble">What is wrong and what to do, in a sentence; null where nothing is.</param>
public sealed record ForwardingHealth(long Sent, long Held, long Refused, long Gone, DateTimeOffset? LastSuccess, string? Trouble);
