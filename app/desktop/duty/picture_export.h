#pragma once
// Writing a drawing to a file of the user's choice, with what there is to say of it.

#include "app/desktop/frame/desk.h"

#include <QWidget>

#include <functional>

namespace headmark {

// PNG, SVG, PDF, CSV by the path's ending.
[[nodiscard]] bool isPicturePath(const QString& path);
[[nodiscard]] QString pathEnding(const QString& path);

// Asks for the file; `write` returns false where it could not.
void exportPicture(Desk& desk, QWidget* parent, const QString& suggested,
                   const std::function<bool(const QString&)>& write);

// All or nothing.
[[nodiscard]] bool writeWhole(const QString& path, const QByteArray& bytes);

} // namespace headmark
