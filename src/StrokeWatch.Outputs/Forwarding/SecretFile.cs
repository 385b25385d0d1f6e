namespace StrokeWatch.Outputs.Influx;

/// <summary>A file that holds a secret for one of the outputs.</summary>
public static class TokenFile
{
    private const int MostBytes = 4096;
    private const UnixFileMode Others = UnixFileMode.GroupRead | UnixFileMode.GroupWrite | UnixFileMode.GroupExecute
        | UnixFileMode.OtherRead | UnixFileMode.OtherWrite | UnixFileMode.OtherExecute;

    /// <summary>Reads the secret; null where the file will not do.</summary>
    /// <param name="path">The file.</param>
    /// <param name="trouble">What is wrong and what to do, the secret never in it; null where all is well.</param>
    public static string? Read(string path, out string? trouble)
    {
        try
        {
            if (!File.Exists(path))
            {
                trouble = $"{path} is not there: write the token into it and nothing else, then chmod 600 {path}";
                return null;
            }

            if (!OperatingSystem.IsWindows() && (File.GetUnixFileMode(path) & Others) is var open and not UnixFileMode.None)
            {
                trouble = $"{path} is open to others than its owner (mode {Convert.ToString((int)File.GetUnixFileMode(path), 8)}): chmod 600 {path}";
                return null;
            }

            if (new FileInfo(path).Length > MostBytes)
            {
                trouble = $"{path} holds more than a token: write the token into it and nothing else";
                return null;
            }

            var token = File.ReadAllText(path).Trim();
            var wrong = token.Length == 0 || !token.All(letter => letter is > ' ' and <= '~');
            trouble = wrong ? $"{path} holds no token: one line without spaces was expected and nothing else" : null;
            return wrong ? null : token;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            trouble = $"{path} cannot be read: check owner and mode of the file and its folder";
            return null;
        }
    }
}
