namespace StrokeWatch.Reports.Books;

/// <summary>How near a reminder is.</summary>
internal enum ReminderLevel
{
    /// <summary>There is time.</summary>
    Later,

    /// <summary>A tenth of the interval is left, or less.</summary>
    Soon,

    /// <summary>The interval is over.</summary>
    Due,
}
