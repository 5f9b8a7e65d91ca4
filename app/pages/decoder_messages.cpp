#include "app/pages/decoder_messages.h"

#include <QString>
#include <QtGlobal>

#include <cstdarg>
#include <dlfcn.h>
#include <mutex>

namespace headmark {

namespace {

thread_local DecoderMessages* current = nullptr;

std::mutex installing;
int users = 0;                           // guarded by `installing`
QtMessageHandler usualHandler = nullptr; // set while users > 0

constexpr std::size_t kMostKept = 64;

} // namespace

struct DecoderMessageSink {
    static void qt(QtMsgType type, const QMessageLogContext& context, const QString& text) {
        if (current == nullptr || type == QtFatalMsg) {
            if (usualHandler != nullptr) usualHandler(type, context, text);
            return;
        }
        if (current->fromQt_.size() < kMostKept) current->fromQt_.push_back(text.toStdString());
    }

    static void tiffError(const char*, const char*, va_list) {
        if (current != nullptr) current->tiffErrors_ = true;
    }
};

DecoderMessages::DecoderMessages() : outer_(current) {
    const std::lock_guard lock(installing);
    if (users++ == 0) usualHandler = qInstallMessageHandler(&DecoderMessageSink::qt);
    current = this;
}

DecoderMessages::~DecoderMessages() {
    const std::lock_guard lock(installing);
    current = outer_;
    if (--users == 0) qInstallMessageHandler(usualHandler);
}

void DecoderMessages::catchTiffMessages() {
    // Qt's plugin brings libtiff along; asking for the copy already loaded needs no headers at build time.
    using Handler = void (*)(const char*, const char*, va_list);
    using Setter = Handler (*)(Handler);
    static std::once_flag once;
    std::call_once(once, [] {
        void* library = ::dlopen("libtiff.so.6", RTLD_NOW | RTLD_NOLOAD);
        if (library == nullptr) return;
        const auto setter = [&](const char* name) {
            return reinterpret_cast<Setter>(::dlsym(library, name));
        };
        if (const Setter setError = setter("TIFFSetErrorHandler")) setError(&DecoderMessageSink::tiffError);
        if (const Setter setWarning = setter("TIFFSetWarningHandler")) setWarning(nullptr);
        // The library stays loaded from here on, so that the handlers stay with it.
    });
}

} // namespace headmark
