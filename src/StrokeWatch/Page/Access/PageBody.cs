using System.Text.Json;
using Microsoft.AspNetCore.Http;

namespace StrokeWatch.Page.Access;

/// <summary>What comes with a request: one small JSON object whose keys are known; all that is wrong is said in one sentence.</summary>
internal sealed class PageBody
{
    /// <summary>How long it may be.</summary>
    public const int MostBytes = 4096;

    private readonly Dictionary<string, JsonElement> values = new(StringComparer.Ordinal);

    private PageBody()
    {
    }

    /// <summary>Gets what is wrong, with its status; null where nothing is.</summary>
    public (int Status, string Sentence)? Trouble { get; private set; }

    /// <summary>Reads it; nothing at all is an object without keys.</summary>
    public static async Task<PageBody> Read(HttpContext context, params string[] known)
    {
        var body = new PageBody();
        using var whole = new MemoryStream();
        try
        {
            await context.Request.Body.CopyToAsync(whole, context.RequestAborted).ConfigureAwait(false);
        }
        catch (BadHttpRequestException wrong)
        {
            body.Refuse(wrong.StatusCode, wrong.StatusCode == StatusCodes.Status413PayloadTooLarge ? TooLong : "the body came broken");
            return body;
        }

        if (whole.Length > 0 && context.Request.ContentType?.StartsWith("application/json", StringComparison.OrdinalIgnoreCase) != true)
        {
            body.Refuse(StatusCodes.Status415UnsupportedMediaType, "a body of the type application/json was expected");
        }
        else if (whole.Length > 0)
        {
            body.Parse(whole.ToArray(), known);
        }

        return body;
    }

    /// <summary>What is said of one that is too long.</summary>
    public static string TooLong => FormattableString.Invariant($"the body is longer than {MostBytes} bytes");

    /// <summary>Gives a text; null where there is none.</summary>
    public string? Text(string key, int most)
    {
        if (!values.TryGetValue(key, out var value) || value.ValueKind == JsonValueKind.Null)
        {
            return null;
        }

        if (value.ValueKind == JsonValueKind.String && value.GetString() is { } text && text.Length <= most)
        {
            return text;
        }

        Refuse(StatusCodes.Status400BadRequest, FormattableString.Invariant($"`{key}`: a text of {most} characters at most was expected"));
        return null;
    }

    /// <summary>Gives a whole number within a range; null where there is none.</summary>
    public int? Whole(string key, int least, int most)
    {
        if (!values.TryGetValue(key, out var value) || value.ValueKind == JsonValueKind.Null)
        {
            return null;
        }

        if (value.ValueKind == JsonValueKind.Number && value.TryGetInt32(out var number) && number >= least && number <= most)
        {
            return number;
        }

        Refuse(StatusCodes.Status400BadRequest, FormattableString.Invariant($"`{key}`: a whole number from {least} to {most} was expected"));
        return null;
    }

    /// <summary>Gives true or false; false where it is not there.</summary>
    public bool Flag(string key)
    {
        if (!values.TryGetValue(key, out var value) || value.ValueKind is JsonValueKind.Null or JsonValueKind.False)
        {
            return false;
        }

        if (value.ValueKind != JsonValueKind.True)
        {
            Refuse(StatusCodes.Status400BadRequest, $"`{key}`: true or false was expected");
        }

        return value.ValueKind == JsonValueKind.True;
    }

    /// <summary>Refuses it.</summary>
    public void Refuse(int status, string sentence) => Trouble ??= (status, sentence);

    private void Parse(byte[] bytes, string[] known)
    {
        try
        {
            using var document = JsonDocument.Parse(bytes, new() { MaxDepth = 4 });
            if (document.RootElement.ValueKind == JsonValueKind.Object)
            {
                foreach (var property in document.RootElement.EnumerateObject())
                {
                    if (!known.Contains(property.Name))
                    {
                        Refuse(StatusCodes.Status400BadRequest, $"the body holds a key that is not known here; {(known.Length == 0 ? "none is" : $"{string.Join(", ", known)} are")}");
                    }

                    // A text that is no Unicode fails only where it is taken out.
                    _ = property.Value.ValueKind == JsonValueKind.String ? property.Value.GetString() : null;
                    values[property.Name] = property.Value.Clone();
                }

                return;
            }
        }
        catch (Exception wrong) when (wrong is JsonException or InvalidOperationException)
        {
            // Said below, as for JSON of another kind.
            values.Clear();
        }

        Refuse(StatusCodes.Status400BadRequest, "the body is no JSON object");
    }
}
