using Fettle.Web.Evidence;

namespace Fettle.Web.Notices.Letters;

/// <summary>Under every mail about freight: where the file of the pickup stood, so that a kept mail proves what it said then.</summary>
internal static class FileFoot
{
    public static Letter Under(Letter letter, EvidenceHead file) => Sheet.Under(
        letter,
        [
            file.Count == 1
                ? T("File of this pickup: 1 record so far. Its head, by which any later change of it is found (keep this mail):")
                : T("File of this pickup: {0} records so far. Its head, by which any later change of them is found (keep this mail):", file.Count),
            file.Head,
        ]);
}
