using System.Text.Json;
using StrokeWatch.Machine.Feeder;
using StrokeWatch.Machine.Tuning;

namespace StrokeWatch.Reports;

/// <summary>Writes advice as the contract's JSON document.</summary>
internal static class AdviceJson
{
    /// <summary>Writes the document.</summary>
    public static void Write(Stream stream, TuningAdvice advice, TuningPosterior posterior)
    {
        using (var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true }))
        {
            json.WriteStartObject();
            json.WriteString("feeder", posterior.Model.Feeder.Name);
            json.WriteString("side", TuningNames.Of(advice.Side));
            ReplayJson.Number(json, "normal_side_probability", advice.NormalProbability, 4);
            ReplayJson.Number(json, "tuning_ratio", advice.TuningRatio, 4);
            ReplayJson.Number(json, "natural_frequency_hz", advice.NaturalHz, 3);
            json.WriteString("natural_frequency_reason", advice.NaturalReason);
            ReplayJson.Number(json, "tray_mass_to_resonance_kg", advice.KilogramsToResonance, 2);
            json.WriteStartObject("recommendation");
            json.WriteString("action", TuningNames.Of(advice.Action));
            Prediction(json, advice.Choice, posterior);
            json.WriteEndObject();
            json.WriteStartArray("alternatives");
            foreach (var stack in advice.Alternatives)
            {
                json.WriteStartObject();
                Prediction(json, stack, posterior);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            ReplayJson.Strings(json, "because", advice.Because);
            ReplayJson.Strings(json, "warnings", advice.Warnings);
            ReplayJson.Strings(json, "cautions", TuningNames.Cautions);
            json.WriteNumber("stacks_examined", advice.Examined);
            ReplayJson.Number(json, "some_stack_fits_probability", advice.AnyFits, 4);
            json.WriteEndObject();
        }

        stream.Write("\n"u8);
    }

    /// <summary>Writes a stack as the array <c>rear</c>.</summary>
    internal static void Rear(Utf8JsonWriter json, IReadOnlyList<LeafLayer> rear)
    {
        json.WriteStartArray("rear");
        foreach (var layer in rear)
        {
            json.WriteStartObject();
            ReplayJson.Number(json, "thickness_mm", layer.ThicknessMetres * 1e3, 4);
            json.WriteNumber("count", layer.Count);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Prediction(Utf8JsonWriter json, StackPrediction stack, TuningPosterior posterior)
    {
        Rear(json, stack.Rear);
        ReplayJson.Number(json, "predicted_pp_mm", stack.Stroke * 1e3, 4);
        ReplayJson.Number(json, "predicted_low_mm", stack.Low * 1e3, 4);
        ReplayJson.Number(json, "predicted_high_mm", stack.High * 1e3, 4);
        ReplayJson.Number(json, "in_band_probability", stack.InBand, 4);
        ReplayJson.Number(json, "over_limit_probability", stack.OverLimit, 4);
        ReplayJson.Number(json, "leaf_stress_mpa", stack.Stress / 1e6, 1);
        ReplayJson.Number(json, "leaf_stress_high_mpa", stack.StressHigh / 1e6, 1);
        ReplayJson.Number(json, "endurance_over_stress", posterior.Model.Feeder.Springs!.EnduranceStress / stack.StressHigh, 3);
        json.WriteString("side_after", TuningNames.Of(TuningNames.After(stack)));
        ReplayJson.Number(json, "natural_frequency_after_hz", stack.NaturalHz, 2);
        ReplayJson.Number(json, "tuning_ratio_after", stack.TuningRatio, 4);
        ReplayJson.Number(json, "stroke_change_per_percent_load_percent", 100 * (Math.Exp(stack.ChangePerPercentTray) - 1), 2);
        json.WriteNumber("leaves_handled", stack.Handled);
    }
}
