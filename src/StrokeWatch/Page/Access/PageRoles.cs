namespace StrokeWatch.Page.Access;

/// <summary>Who may do what: the one table of it.</summary>
internal static class PageRoles
{
    private static readonly Dictionary<PageRight, PageRole> Least = new()
    {
        [PageRight.Acknowledge] = PageRole.Operator,
        [PageRight.Shelve] = PageRole.Operator,
        [PageRight.ShelveLonger] = PageRole.Technician,
        [PageRight.Tune] = PageRole.Technician,
        [PageRight.Note] = PageRole.Technician,
        [PageRight.KeepCapture] = PageRole.Technician,
        [PageRight.OutOfService] = PageRole.Engineer,
        [PageRight.SetBaseline] = PageRole.Engineer,
        [PageRight.SetBook] = PageRole.Engineer,
    };

    /// <summary>Gets the names of the roles, in rising order.</summary>
    public static IReadOnlyList<string> All { get; } = [.. Enum.GetValues<PageRole>().Select(Name)];

    /// <summary>Says whether a role may do something.</summary>
    public static bool May(PageRole role, PageRight right) => role >= Least[right];

    /// <summary>Gives the least role that may do something.</summary>
    public static PageRole Needed(PageRight right) => Least[right];

    /// <summary>Gives a role's name as files and answers write it.</summary>
    public static string Name(PageRole role) => role switch
    {
        PageRole.Operator => "operator",
        PageRole.Technician => "technician",
        _ => "engineer",
    };

    /// <summary>Gives a right's name as answers write it.</summary>
    public static string Name(PageRight right) => right switch
    {
        PageRight.Acknowledge => "acknowledge",
        PageRight.Shelve => "shelve",
        PageRight.ShelveLonger => "shelve-longer",
        PageRight.Tune => "tune",
        PageRight.Note => "note",
        PageRight.OutOfService => "out-of-service",
        PageRight.KeepCapture => "keep-capture",
        PageRight.SetBaseline => "set-baseline",
        _ => "set-book",
    };

    /// <summary>Reads a role's name; null where it is none.</summary>
    public static PageRole? Read(string name) => Enum.GetValues<PageRole>().Cast<PageRole?>().FirstOrDefault(role => Name(role!.Value) == name);
}
