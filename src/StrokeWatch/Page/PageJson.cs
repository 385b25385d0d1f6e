using System.Buffers;
using System.Text.Encodings.Web;
using System.Text.Json;
using Microsoft.AspNetCore.Http;

namespace StrokeWatch.Page;

/// <summary>Writes JSON without reflection, into memory or as an answer.</summary>
internal static class PageJson
{
    private const string Type = "application/json; charset=utf-8";

    // The document is never pasted into HTML: what is not ASCII may stand as it is.
    private static readonly JsonWriterOptions Options = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Writes one document on one line.</summary>
    public static ReadOnlyMemory<byte> Bytes(Action<Utf8JsonWriter> write)
    {
        var buffer = new ArrayBufferWriter<byte>(2048);
        using (var writer = new Utf8JsonWriter(buffer, Options))
        {
            write(writer);
        }

        return buffer.WrittenMemory;
    }

    /// <summary>Answers with one document.</summary>
    public static Task Answer(HttpContext context, Action<Utf8JsonWriter> write, int status = StatusCodes.Status200OK) => Answer(context, Bytes(write), Type, status);

    /// <summary>Answers that the question was wrong, or cannot be answered now: one sentence, what and what to do.</summary>
    public static Task Refuse(HttpContext context, int status, string sentence) => Answer(
        context,
        writer =>
        {
            writer.WriteStartObject();
            writer.WriteString("error", sentence);
            writer.WriteEndObject();
        },
        status);

    /// <summary>Answers with bytes.</summary>
    public static async Task Answer(HttpContext context, ReadOnlyMemory<byte> bytes, string type, int status = StatusCodes.Status200OK)
    {
        context.Response.StatusCode = status;
        context.Response.ContentType = type;
        context.Response.ContentLength = bytes.Length;
        if (!HttpMethods.IsHead(context.Request.Method))
        {
            await context.Response.Body.WriteAsync(bytes, context.RequestAborted).ConfigureAwait(false);
        }
    }

    /// <summary>Writes a length under two keys, in millimetres and in inches; null where there is none.</summary>
    public static void Length(Utf8JsonWriter writer, string name, double? metres)
    {
        Number(writer, $"{name}_mm", metres * 1e3, 6);
        Number(writer, $"{name}_in", metres / Samples.Quantities.Length.MetresPerInch, 7);
    }

    /// <summary>Writes a number, or null where there is none.</summary>
    public static void Number(Utf8JsonWriter writer, string name, double? value, int digits)
    {
        if (value is { } number && double.IsFinite(number))
        {
            writer.WriteNumber(name, Math.Round(number, digits));
        }
        else
        {
            writer.WriteNull(name);
        }
    }

    /// <summary>Writes an instant in UTC, or null.</summary>
    public static void Utc(Utf8JsonWriter writer, string name, DateTimeOffset? at)
    {
        if (at is { } instant)
        {
            writer.WriteString(name, PageQuery.Written(instant));
        }
        else
        {
            writer.WriteNull(name);
        }
    }
}
