namespace Homestretch.Files.ItemBanks;

/// <summary>Columns of an item bank file.</summary>
internal enum ItemBankColumn
{
    Topic,
    Item,
    Model,
    Discrimination,
    Difficulty,
    Guessing,
    DiscriminationError,
    DifficultyError,
    GuessingError,
    Test,
}
