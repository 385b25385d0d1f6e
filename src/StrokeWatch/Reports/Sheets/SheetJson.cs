using System.Text.Json;

namespace StrokeWatch.Reports.Sheets;

/// <summary>Writes a sheet as one JSON document.</summary>
internal static class SheetJson
{
    /// <summary>Writes it.</summary>
    public static void Write(Stream stream, Sheet sheet)
    {
        using (var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true }))
        {
            json.WriteStartObject();
            json.WriteString("sheet", sheet.Name);
            json.WriteString("feeder", sheet.Feeder);
            json.WriteString("from", sheet.From);
            foreach (var fact in sheet.Facts)
            {
                fact.Write(json);
            }

            foreach (var table in sheet.Tables)
            {
                Table(json, table);
            }

            json.WriteStartObject("lines");
            foreach (var line in sheet.Plot.Lines)
            {
                json.WriteStartObject(line.Key);
                Numbers(json, sheet.Plot.Keys.X, line.Points.Select(point => point.X));
                Numbers(json, sheet.Plot.Keys.Y, line.Points.Select(point => point.Y));
                json.WriteEndObject();
            }

            if (sheet.Plot.Ribbon.Count > 0)
            {
                json.WriteStartObject("range_95");
                Numbers(json, sheet.Plot.Keys.X, sheet.Plot.Ribbon.Select(point => point.X));
                Numbers(json, "low_" + sheet.Plot.Keys.Y, sheet.Plot.Ribbon.Select(point => point.Low));
                Numbers(json, "high_" + sheet.Plot.Keys.Y, sheet.Plot.Ribbon.Select(point => point.High));
                json.WriteEndObject();
            }

            json.WriteEndObject();
            ReplayJson.Strings(json, "notes", sheet.Notes);
            json.WriteEndObject();
        }

        stream.Write("\n"u8);
    }

    private static void Table(Utf8JsonWriter json, SheetTable table)
    {
        json.WriteStartArray(table.Key);
        foreach (var (words, numbers) in table.Rows)
        {
            json.WriteStartObject();
            if (table.HasWords)
            {
                json.WriteString(table.Columns[0].Key, words);
            }

            for (var i = 0; i < numbers.Count; i++)
            {
                ReplayJson.Number(json, table.Columns[i + 1].Key, numbers[i], 6);
            }

            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Numbers(Utf8JsonWriter json, string name, IEnumerable<double> values)
    {
        json.WriteStartArray(name);
        foreach (var value in values)
        {
            if (double.IsFinite(value))
            {
                json.WriteNumberValue((decimal)Math.Round(value, 5));
            }
            else
            {
                json.WriteNullValue();
            }
        }

        json.WriteEndArray();
    }
}
