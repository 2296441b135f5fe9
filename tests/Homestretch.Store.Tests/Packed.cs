using System.IO.Compression;

namespace Homestretch.Store.Tests;

/// <summary>An export of cases that were never in a store.</summary>
internal static class Packed
{
    public static void Write(Stream target, IEnumerable<StoredCase> cases)
    {
        using ZipArchive zip = new(target, ZipArchiveMode.Create, leaveOpen: true);
        StoreArchive.WriteMark(zip);
        foreach (StoredCase packed in cases)
        {
            packed.ExamKey = packed.Exam!.Key;
            StoreArchive.Write(zip, packed.Exam);
            StoreArchive.Write(zip, packed);
        }
    }
}
