namespace StrokeWatch.Outputs.Webhook;

/// <summary>Whom each step of an alarm is posted to.</summary>
public sealed record WebhookOptions
{
    /// <summary>Gets the address, http or https.</summary>
    public required Uri Url { get; init; }

    /// <summary>Gets the file that holds the secret both sides know.</summary>
    public required string SecretPath { get; init; }

    /// <summary>Gets how long an answer is waited for.</summary>
    public TimeSpan Patience { get; init; } = TimeSpan.FromSeconds(10);
}
