using System.Buffers;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace Fettle.Readiness.Evidence;

/// <summary>
/// One way to write a JSON value: keys in the order of their UTF-16 code units, no spaces, figures as they stand, only the
/// escapes that JSON demands. The same value gives the same bytes, whatever order a database keeps keys in.
/// </summary>
public static class Canonical
{
    private static readonly JsonWriterOptions Plain = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static byte[] Bytes(JsonElement value)
    {
        var bytes = new ArrayBufferWriter<byte>();
        using (var writer = new Utf8JsonWriter(bytes, Plain))
            Write(writer, value);
        return bytes.WrittenSpan.ToArray();
    }

    /// <summary>The same of any value, written with camel case names.</summary>
    public static byte[] Bytes<T>(T value) => Bytes(JsonSerializer.SerializeToElement(value, JsonSerializerOptions.Web));

    private static void Write(Utf8JsonWriter writer, JsonElement value)
    {
        switch (value.ValueKind)
        {
            case JsonValueKind.Object:
                writer.WriteStartObject();
                foreach (var property in value.EnumerateObject().OrderBy(property => property.Name, StringComparer.Ordinal))
                {
                    writer.WritePropertyName(property.Name);
                    Write(writer, property.Value);
                }

                writer.WriteEndObject();
                break;
            case JsonValueKind.Array:
                writer.WriteStartArray();
                foreach (var item in value.EnumerateArray())
                    Write(writer, item);
                writer.WriteEndArray();
                break;
            case JsonValueKind.Number:
                writer.WriteRawValue(value.GetRawText());
                break;
            default:
                value.WriteTo(writer);
                break;
        }
    }
}
