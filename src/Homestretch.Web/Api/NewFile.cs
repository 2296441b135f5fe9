using System.Text;

using Homestretch.Store;
using Homestretch.Web.Cases;
using Homestretch.Web.Uploads;

namespace Homestretch.Web.Api;

/// <summary>A file inside a JSON body. It has either <c>text</c> or <c>base64</c>.</summary>
/// <param name="Name">Its name, for messages; at most 120 characters are kept.</param>
/// <param name="Text">Its content, where it is text.</param>
/// <param name="Base64">Its bytes in Base64, where it is not, such as a spreadsheet.</param>
public sealed record NewFile(string Name, string? Text = null, string? Base64 = null)
{
    /// <summary>The file, or why it is none.</summary>
    /// <param name="role">What it is for.</param>
    /// <param name="at">Where it is in the body.</param>
    /// <param name="errors">Gets what is wrong.</param>
    public NamedFile? Read(FileRole role, string at, ICollection<ApiError> errors)
    {
        ArgumentNullException.ThrowIfNull(errors);
        if (Text is null == Base64 is null)
        {
            errors.Add(new("A file has either text or base64.", At: at));
            return null;
        }

        if (Text is not null)
        {
            return new(role, Upload.FileName(Name), Encoding.UTF8.GetBytes(Text));
        }

        byte[] bytes = new byte[Base64!.Length];
        if (Convert.TryFromBase64String(Base64, bytes, out int length))
        {
            return new(role, Upload.FileName(Name), bytes.AsMemory(0, length));
        }

        errors.Add(new("This is no Base64.", At: at + "/base64"));
        return null;
    }
}
