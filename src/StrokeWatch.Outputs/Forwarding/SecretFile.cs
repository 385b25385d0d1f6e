namespace StrokeWatch.Outputs.Forwarding;

/// <summary>A file that holds a secret for one of the outputs.</summary>
public static class SecretFile
{
    private const int MostBytes = 4096;
    private const UnixFileMode Others = UnixFileMode.GroupRead | UnixFileMode.GroupWrite | UnixFileMode.GroupExecute
        | UnixFileMode.OtherRead | UnixFileMode.OtherWrite | UnixFileMode.OtherExecute;

    /// <summary>Reads the secret; null where the file will not do.</summary>
    /// <param name="path">The file.</param>
    /// <param name="what">What it is for people: token or password.</param>
    /// <param name="trouble">What is wrong and what to do, the secret never in it; null where all is well.</param>
    public static string? Read(string path, string what, out string? trouble) => Read(path, what, Environment.GetEnvironmentVariable("CREDENTIALS_DIRECTORY"), out trouble);

    /// <summary>Reads the secret; in the folder that systemd keeps a service's credentials in, the mode shows an access list as if it were the group's.</summary>
    internal static string? Read(string path, string what, string? credentials, out string? trouble)
    {
        try
        {
            if (!File.Exists(path))
            {
                trouble = $"{path} is not there: write the {what} into it and nothing else, then chmod 600 {path}";
                return null;
            }

            var kept = !string.IsNullOrEmpty(credentials) && Path.GetDirectoryName(Path.GetFullPath(path)) == Path.GetFullPath(credentials).TrimEnd('/');
            if (!kept && !OperatingSystem.IsWindows() && (File.GetUnixFileMode(path) & Others) is var open and not UnixFileMode.None)
            {
                trouble = $"{path} is open to others than its owner (mode {Convert.ToString((int)File.GetUnixFileMode(path), 8)}): chmod 600 {path}";
                return null;
            }

            if (new FileInfo(path).Length > MostBytes)
            {
                trouble = $"{path} holds more than a {what}: write the {what} into it and nothing else";
                return null;
            }

            var secret = File.ReadAllText(path).Trim();
            var wrong = secret.Length == 0 || !secret.All(letter => letter is > ' ' and <= '~');
            trouble = wrong ? $"{path} holds no {what}: one line without spaces was expected and nothing else" : null;
            return wrong ? null : secret;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            trouble = $"{path} cannot be read: check owner and mode of the file and its folder";
            return null;
        }
    }
}
