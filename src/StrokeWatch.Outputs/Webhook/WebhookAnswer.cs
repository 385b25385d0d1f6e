namespace StrokeWatch.Outputs.Webhook;

/// <summary>What became of a message, and why.</summary>
/// <param name="Kind">What became of it.</param>
/// <param name="Words">The status, or what happened.</param>
/// <param name="RetryAfter">How long the server asks to be left alone; null where it does not.</param>
internal readonly record struct WebhookAnswer(WebhookAnswerKind Kind, string Words = "", TimeSpan? RetryAfter = null);
