namespace StrokeWatch.Outputs.Webhook;

/// <summary>What became of a message.</summary>
internal enum WebhookAnswerKind
{
    /// <summary>It was taken.</summary>
    Taken,

    /// <summary>It may be taken later: no answer, or one that says so.</summary>
    Later,

    /// <summary>Nothing will be taken until somebody puts something right.</summary>
    Denied,

    /// <summary>This one will never be taken.</summary>
    Refused,
}
