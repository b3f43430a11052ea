namespace Fettle.Web.Store;

/// <summary>The database cannot be worked with as it is. The message is for whoever starts the portal: what is wrong and what to do about it.</summary>
public sealed class DatabaseUnusableException : Exception
{
    public DatabaseUnusableException()
    {
    }

    public DatabaseUnusableException(string message) : base(message)
    {
    }

    public DatabaseUnusableException(string message, Exception? innerException) : base(message, innerException)
    {
    }
}
