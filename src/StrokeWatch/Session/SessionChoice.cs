namespace StrokeWatch.Session;

/// <summary>One answer that a question offers.</summary>
/// <param name="Id">Its id, for pages and the record.</param>
/// <param name="Words">What it says.</param>
/// <param name="Enter">Whether Enter stands for it.</param>
internal sealed record SessionChoice(string Id, string Words, bool Enter = false);
