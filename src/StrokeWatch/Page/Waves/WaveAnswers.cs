using System.Text.Json;
using Microsoft.AspNetCore.Http;
using StrokeWatch.Samples.Blocks;

namespace StrokeWatch.Page.Waves;

/// <summary>Answers of the last second: <c>/api/v1/waveform</c>, <c>/api/v1/path</c> and <c>/api/v1/orders</c>.</summary>
internal sealed class WaveAnswers(WaveTaps taps)
{
    /// <summary>Answers with the acceleration of each axis, thinned to smallest and largest of each column.</summary>
    public Task Waveform(HttpContext context)
    {
        var query = PageQuery.Of(context, "sensor", "last_ms", "points");
        var last = query.Whole("last_ms", 20, 1000, 1000);
        var points = query.Whole("points", 10, 2000, 500);
        return Answer(context, query, (writer, look) => WaveJson.Waveform(writer, look, last / 1e3, points));
    }

    /// <summary>Answers with the displacement over one cycle.</summary>
    public Task Path(HttpContext context) => Answer(context, PageQuery.Of(context, "sensor"), WaveJson.Path);

    /// <summary>Answers with the amplitudes of the orders of the drive.</summary>
    public Task Orders(HttpContext context) => Answer(context, PageQuery.Of(context, "sensor"), WaveJson.Orders);

    private async Task Answer(HttpContext context, PageQuery query, Action<Utf8JsonWriter, WaveLook> write)
    {
        var names = taps.Places.Select(SensorPlaces.Name).ToList();
        var named = query.OneOf("sensor", names);
        if (query.Trouble is { } trouble)
        {
            await PageJson.Refuse(context, StatusCodes.Status400BadRequest, trouble).ConfigureAwait(false);
            return;
        }

        var look = await taps.Look(named is { } name ? taps.Places[names.IndexOf(name)] : null).WaitAsync(context.RequestAborted).ConfigureAwait(false);
        await PageJson.Answer(context, writer =>
        {
            writer.WriteStartObject();
            PageJson.Utc(writer, "utc", look.Utc);
            writer.WriteString("sensor", look.Place is { } place ? SensorPlaces.Name(place) : null);
            writer.WriteStartArray("sensors");
            names.ForEach(writer.WriteStringValue);
            writer.WriteEndArray();
            writer.WriteString("reason", look.Reason);
            write(writer, look);
            writer.WriteEndObject();
        }).ConfigureAwait(false);
    }
}
