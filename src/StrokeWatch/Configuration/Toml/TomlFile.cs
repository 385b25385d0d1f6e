using System.Text;

namespace StrokeWatch.Configuration.Toml;

/// <summary>Reads a TOML file into tables; whatever is wrong with it becomes errors, never an exception.</summary>
internal static class TomlFile
{
    /// <summary>The most bytes a configuration file may have; a larger file is another kind of file.</summary>
    private const int MostBytes = 1 << 20;

    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>Reads a file; null where it cannot be read as TOML at all, and the errors then say why.</summary>
    public static TomlTable? Read(string path, ConfigurationErrors errors)
    {
        var text = Text(path, out var trouble);
        if (text is null)
        {
            errors.Add(0, trouble);
            return null;
        }

        return Parse(text, errors);
    }

    /// <summary>Reads TOML text; null where so much is wrong that reading on would only mislead.</summary>
    public static TomlTable? Parse(string text, ConfigurationErrors errors)
    {
        var document = SyntaxRepair.Parse(text, errors);
        return document is null ? null : TreeBuilder.Build(document, errors);
    }

    private static string? Text(string path, out string trouble)
    {
        try
        {
            if (Directory.Exists(path))
            {
                trouble = "is a directory; a TOML file was expected";
                return null;
            }

            using var stream = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
            var bytes = new byte[MostBytes + 1];
            var count = stream.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
            if (count > MostBytes)
            {
                trouble = "is larger than 1 MiB; a TOML file was expected";
                return null;
            }

            var content = bytes.AsSpan(0, count);
            if (content.StartsWith(Encoding.UTF8.Preamble))
            {
                content = content[Encoding.UTF8.Preamble.Length..];
            }

            var text = content.Contains((byte)0) ? null : Strict.GetString(content);
            trouble = "is not text; a TOML file in UTF-8 was expected";
            return text;
        }
        catch (DecoderFallbackException)
        {
            trouble = "is not UTF-8 text; save it as UTF-8";
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            trouble = "there is no such file; check the path";
        }
        catch (UnauthorizedAccessException)
        {
            trouble = "may not be read by this user; check owner and mode";
        }
        catch (Exception e) when (e is IOException or ArgumentException or NotSupportedException)
        {
            trouble = $"cannot be read ({e.Message.ReplaceLineEndings(" ")}); check the path";
        }

        return null;
    }
}
