using System.Globalization;
using StrokeWatch.Samples.Csv;
using StrokeWatch.Samples.Sources;
using StrokeWatch.Samples.Wav;

namespace StrokeWatch.Samples.Captures;

/// <summary>The one door to capture files: it looks at what a file holds, not at its name.</summary>
public static class CaptureFile
{
    /// <summary>Opens a capture; a file that cannot be read throws <see cref="CaptureException"/> with one line.</summary>
    public static ICaptureSource Open(string path, CaptureOptions? options = null) => Open(CaptureBytes.OfFile(path), options ?? new());

    /// <summary>Opens a capture from its bytes, which belong to the source afterwards.</summary>
    internal static ICaptureSource Open(CaptureBytes bytes, CaptureOptions options)
    {
        try
        {
            Check(options);
            Span<byte> head = stackalloc byte[4096];
            using (var stream = bytes.Open())
            {
                head = head[..stream.ReadAtLeast(head, head.Length, throwOnEndOfStream: false)];
            }

            if (head.IsEmpty)
            {
                throw bytes.Error("is empty; record it again");
            }

            return WavLayout.IsWav(head) ? WavCaptureSource.Open(bytes, options) : CsvCaptureSource.Open(bytes, TextKind.Of(head, bytes), options);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            bytes.Dispose();
            throw bytes.Error(fault);
        }
        catch
        {
            bytes.Dispose();
            throw;
        }
    }

    private static void Check(CaptureOptions options)
    {
        Positive(options.RateHz, "--rate-hz");
        Positive(options.FullScaleG, "--full-scale-g");
        Positive(options.CountsPerG, "--counts-per-g");
        if (options.SupplyChannel < 1)
        {
            throw new CaptureException("--supply-channel: channels and columns count from 1");
        }

        if (options.SkipRows < 0)
        {
            throw new CaptureException("--skip-rows: must be 0 or more");
        }
    }

    private static void Positive(double? value, string option)
    {
        if (value is { } number && !(double.IsFinite(number) && number > 0))
        {
            throw new CaptureException($"{option}: {number.ToString(CultureInfo.InvariantCulture)} is out of range; give a number above 0");
        }
    }
}
